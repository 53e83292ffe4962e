import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { ChemistryModule } from '../chemistry/chemistry.module.js';
import { PeopleModule } from '../people/people.module.js';
import { RoomModule } from '../room/room.module.js';
import { StockModule } from '../stock/stock.module.js';
import { StudiosModule } from '../studios/studios.module.js';
import { TravelModule } from '../travel/travel.module.js';
import { WaitingModule } from '../waiting/waiting.module.js';
import { AskHomes } from './ask-homes.service.js';
import { AskWeb } from './ask.web.js';
import { ConsentsService } from './consents.service.js';
import { CorrectionsService } from './corrections.service.js';
import { DecisionsService } from './decisions.service.js';
import { DraftsService } from './drafts.service.js';
import { DelaysService } from './delays.service.js';
import { DiaryService } from './diary.service.js';
import { EndingsService } from './endings.service.js';
import { FreedService } from './freed.service.js';
import { ListService } from './list.service.js';
import { MoveCheckService } from './move-check.service.js';
import { MoveProposalsService } from './move-proposals.service.js';
import { MovingService } from './moving.service.js';
import { OffersJobs } from './offers.jobs.js';
import { OffersService } from './offers.service.js';
import { OpeningsService } from './openings.service.js';
import { OwnCalendarService } from './own-calendar.service.js';
import { OwnCalendarWeb } from './own-calendar.web.js';
import { OwnJourneyService } from './own-journey.service.js';
import { OwnJourneyWeb } from './own-journey.web.js';
import { PlaceWeb } from './place.web.js';
import { PlacesService } from './places.service.js';
import { PlanFactsService } from './plan-facts.service.js';
import { PlansController } from './plans.controller.js';
import { PlansService } from './plans.service.js';
import { PrepareWeb } from './prepare.web.js';
import { RequestsService } from './requests.service.js';
import { SittingsController } from './sittings.controller.js';
import { SittingsWeb } from './sittings.web.js';
import { UndoService } from './undo.service.js';
import { SittingViews } from './views.service.js';

@Module({
  imports: [
    StudiosModule,
    AccountsModule,
    ChemistryModule,
    TravelModule,
    PeopleModule,
    RoomModule,
    StockModule,
    WaitingModule,
  ],
  controllers: [
    SittingsController,
    PlansController,
    SittingsWeb,
    AskWeb,
    PlaceWeb,
    OwnJourneyWeb,
    OwnCalendarWeb,
    PrepareWeb,
  ],
  providers: [
    AskHomes,
    DraftsService,
    OpeningsService,
    RequestsService,
    ConsentsService,
    OwnJourneyService,
    OwnCalendarService,
    CorrectionsService,
    DecisionsService,
    PlacesService,
    EndingsService,
    DelaysService,
    DiaryService,
    FreedService,
    ListService,
    MovingService,
    MoveCheckService,
    OffersService,
    OffersJobs,
    MoveProposalsService,
    PlanFactsService,
    PlansService,
    UndoService,
    SittingViews,
  ],
  exports: [
    AskHomes,
    OpeningsService,
    RequestsService,
    ConsentsService,
    CorrectionsService,
    DecisionsService,
    PlacesService,
    EndingsService,
    DelaysService,
    DiaryService,
    ListService,
    MovingService,
    MoveCheckService,
    OffersService,
    PlansService,
    MoveProposalsService,
    UndoService,
    SittingViews,
  ],
})
export class SittingsModule {}
