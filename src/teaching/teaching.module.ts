import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { ChemistryModule } from '../chemistry/chemistry.module.js';
import { PeopleModule } from '../people/people.module.js';
import { RoomModule } from '../room/room.module.js';
import { StockModule } from '../stock/stock.module.js';
import { StudiosModule } from '../studios/studios.module.js';
import { WaitingModule } from '../waiting/waiting.module.js';
import { AfterService } from './after.service.js';
import { AfterViews } from './after-views.service.js';
import { TeachingCalendar } from './calendar-days.service.js';
import { BenchService } from './bench.service.js';
import { TeachingChanges } from './changes.service.js';
import { DayShelfService } from './day-shelf.service.js';
import { TeachingDecisions } from './decisions.service.js';
import { TeachingMoving } from './moving-days.service.js';
import { OwnSignUpCalendar } from './own-calendar.service.js';
import { StudentCalendarWeb } from './own-calendar.web.js';
import { OwnSignUpService } from './own-sign-up.service.js';
import { SheetsService } from './sheets.service.js';
import { StudentJourneyWeb } from './own-journey.web.js';
import { StudentWeb } from './student.web.js';
import { TeachingRequestsService } from './requests.service.js';
import { SeatsService } from './seats.service.js';
import { SessionsService } from './sessions.service.js';
import { SignUpsService } from './sign-ups.service.js';
import { TeachingController } from './teaching.controller.js';
import { TeachingJobs } from './teaching.jobs.js';
import { TeachingWeb } from './teaching.web.js';
import { TeachingToDecideService } from './to-decide.service.js';
import { TurnsController } from './turns.controller.js';
import { TurnsPlanner } from './turns-planner.service.js';
import { TurnsService } from './turns.service.js';
import { TeachingUndo } from './undo.service.js';
import { TeachingViews } from './views.service.js';

@Module({
  imports: [
    StudiosModule,
    AccountsModule,
    ChemistryModule,
    PeopleModule,
    RoomModule,
    StockModule,
    WaitingModule,
  ],
  controllers: [
    TeachingController,
    TurnsController,
    TeachingWeb,
    StudentWeb,
    StudentJourneyWeb,
    StudentCalendarWeb,
  ],
  providers: [
    AfterService,
    AfterViews,
    TeachingCalendar,
    TeachingDecisions,
    TeachingToDecideService,
    TeachingMoving,
    TeachingUndo,
    TeachingChanges,
    SeatsService,
    SessionsService,
    SheetsService,
    SignUpsService,
    OwnSignUpService,
    OwnSignUpCalendar,
    DayShelfService,
    TeachingRequestsService,
    TeachingJobs,
    TeachingViews,
    BenchService,
    TurnsPlanner,
    TurnsService,
  ],
  exports: [
    AfterService,
    TeachingCalendar,
    TeachingDecisions,
    TeachingToDecideService,
    TeachingMoving,
    TeachingUndo,
    TeachingChanges,
    TeachingViews,
    SeatsService,
    SessionsService,
    SheetsService,
    SignUpsService,
    OwnSignUpService,
    DayShelfService,
    TeachingRequestsService,
    BenchService,
    TurnsService,
  ],
})
export class TeachingModule {}
