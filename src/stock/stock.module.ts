import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { ChemistryModule } from '../chemistry/chemistry.module.js';
import { RoomModule } from '../room/room.module.js';
import { StudiosModule } from '../studios/studios.module.js';
import { ActsService } from './acts.service.js';
import { BathLedgerService } from './bath-ledger.service.js';
import { BathsService } from './baths.service.js';
import { BroughtBottles } from './brought.service.js';
import { DaysService } from './days.service.js';
import { DueService } from './due.service.js';
import { FaultsService } from './faults.service.js';
import { FormulaViews } from './formula-views.service.js';
import { FormulasService } from './formulas.service.js';
import { ItemsService } from './items.service.js';
import { PlanController } from './plan.controller.js';
import { PlanningService } from './planning.service.js';
import { PouringService } from './pouring.service.js';
import { PreparationService } from './preparation.service.js';
import { RecipesService } from './recipes.service.js';
import { ReceiptsService } from './receipts.service.js';
import { ShelfController } from './shelf.controller.js';
import { ShelfService } from './shelf.service.js';
import { ShelfViews } from './shelf-views.service.js';
import { StockService } from './stock.service.js';
import { ToldUseService } from './told-use.service.js';

@Module({
  imports: [StudiosModule, AccountsModule, ChemistryModule, RoomModule],
  controllers: [ShelfController, PlanController],
  providers: [
    ActsService,
    ShelfViews,
    StockService,
    ToldUseService,
    BroughtBottles,
    ShelfService,
    PouringService,
    ItemsService,
    ReceiptsService,
    DaysService,
    PreparationService,
    BathsService,
    BathLedgerService,
    FaultsService,
    FormulasService,
    FormulaViews,
    DueService,
    PlanningService,
    RecipesService,
  ],
  exports: [
    ShelfViews,
    StockService,
    ToldUseService,
    BroughtBottles,
    ShelfService,
    PouringService,
    ItemsService,
    ReceiptsService,
    DaysService,
    PreparationService,
    BathsService,
    BathLedgerService,
    FaultsService,
    FormulasService,
    FormulaViews,
    DueService,
    PlanningService,
    RecipesService,
  ],
})
export class StockModule {}
