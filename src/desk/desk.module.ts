import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { BackupModule } from '../backup/backup.module.js';
import { CalendarModule } from '../calendar/calendar.module.js';
import { ChemistryModule } from '../chemistry/chemistry.module.js';
import { DaylightModule } from '../daylight/daylight.module.js';
import { OutsideModule } from '../outside/outside.module.js';
import { PeopleModule } from '../people/people.module.js';
import { PlatesModule } from '../plates/plates.module.js';
import { PrivacyModule } from '../privacy/privacy.module.js';
import { RemindersModule } from '../reminders/reminders.module.js';
import { RoomModule } from '../room/room.module.js';
import { SittingsModule } from '../sittings/sittings.module.js';
import { StockModule } from '../stock/stock.module.js';
import { StudiosModule } from '../studios/studios.module.js';
import { VouchersModule } from '../vouchers/vouchers.module.js';
import { WaitingModule } from '../waiting/waiting.module.js';
import { AccountWeb } from './account/account.web.js';
import { ColleaguesWeb } from './account/colleagues.web.js';
import { BringInService } from './bring-in/bring-in.service.js';
import { BringInWeb } from './bring-in/bring-in.web.js';
import { BringInDiary } from './bring-in/diary.service.js';
import { BringInPlates } from './bring-in/plates.service.js';
import { BringInShelf } from './bring-in/shelf.service.js';
import { ConsentsWeb } from './consents.web.js';
import { DaySheets } from './day-sheets.service.js';
import { DayLaterWeb } from './day-later.web.js';
import { DayOffWeb } from './day-off.web.js';
import { DaySheetWeb } from './day-sheet.web.js';
import { DeskService } from './desk.service.js';
import { DeskWeb } from './desk.web.js';
import { GlancesService } from './glances.service.js';
import { InboxService } from './inbox.service.js';
import { LightNotesWeb } from './light-notes.web.js';
import { LightService } from './light.service.js';
import { LightWeb } from './light.web.js';
import { DeskLinks } from './links.service.js';
import { LinksWeb } from './links.web.js';
import { MoveWeb } from './move.web.js';
import { BookWeb } from './plates/book.web.js';
import { FieldsWeb } from './plates/fields.web.js';
import { HandOverWeb } from './plates/hand-over.web.js';
import { LabelsWeb } from './plates/labels.web.js';
import { SeriesWeb } from './plates/series.web.js';
import { OwedWeb } from './plates/owed.web.js';
import { TypeInWeb } from './plates/type-in.web.js';
import { VouchersWeb } from './plates/vouchers.web.js';
import { NewRequestWeb } from './new-request.web.js';
import { PlanWeb } from './plan.web.js';
import { PrepareWeb } from './prepare.web.js';
import { NewsJobs } from './news.jobs.js';
import { NewsService } from './news.service.js';
import { DayLetterWeb } from './reminders/day-letter.web.js';
import { WordingsWeb } from './reminders/wordings.web.js';
import { RemindersWeb } from './reminders/reminders.web.js';
import { RequestsWeb } from './requests.web.js';
import { BenchCardWeb } from './shelf/bench-card.web.js';
import { ConcernedService } from './shelf/concerned.service.js';
import { BathsWeb } from './shelf/baths.web.js';
import { FaultsWeb } from './shelf/faults.web.js';
import { ChoiceWeb } from './shelf/choice.web.js';
import { FormulasWeb } from './shelf/formulas.web.js';
import { ItemsWeb } from './shelf/items.web.js';
import { LotsWeb } from './shelf/lots.web.js';
import { ShelfWeb } from './shelf/shelf.web.js';
import { MixingWeb } from './shelf/mixing.web.js';
import { OrdersWeb } from './shelf/orders.web.js';
import { EstimateService } from './shelf/estimate.service.js';
import { EstimateWeb } from './shelf/estimate.web.js';
import { UsedService } from './shelf/used.service.js';
import { UsedWeb } from './shelf/used.web.js';
import { PersonWeb } from './privacy/person.web.js';
import { KeepingWeb } from './settings/keeping.web.js';
import { CopiesWeb } from './settings/copies.web.js';
import { OutsideWeb } from './settings/outside.web.js';
import { SettingsWeb } from './settings/settings.web.js';
import { ClaimService } from './set-up/claim.service.js';
import { ClaimWeb } from './set-up/claim.web.js';
import { ProfileWeb } from './set-up/profile.web.js';
import { FirstShelfService } from './set-up/first-shelf.service.js';
import { SetUpService } from './set-up/set-up.service.js';
import { SetUpWeb } from './set-up/set-up.web.js';
import { TravelModule } from '../travel/travel.module.js';
import { TeachingModule } from '../teaching/teaching.module.js';
import { TemplatesWeb } from './teaching/templates.web.js';
import { AfterWeb } from './teaching/after.web.js';
import { SheetWeb } from './teaching/sheet.web.js';
import { TurnsWeb } from './teaching/turns.web.js';
import { TeachingByHandWeb } from './teaching/by-hand.web.js';
import { TeachingUndoActs } from './teaching/undo.service.js';
import { DeskTeachingWeb } from './teaching/teaching.web.js';
import { TelephoneWeb } from './telephone.web.js';
import { UndoActs } from './undo-acts.service.js';
import { WaitingWeb } from './waiting.web.js';

@Module({
  imports: [
    StudiosModule,
    AccountsModule,
    ChemistryModule,
    DaylightModule,
    PeopleModule,
    OutsideModule,
    RoomModule,
    StockModule,
    WaitingModule,
    SittingsModule,
    PlatesModule,
    TravelModule,
    VouchersModule,
    TeachingModule,
    RemindersModule,
    CalendarModule,
    PrivacyModule,
    BackupModule,
  ],
  controllers: [
    DeskWeb,
    AccountWeb,
    ColleaguesWeb,
    ConsentsWeb,
    DayLaterWeb,
    DayOffWeb,
    DaySheetWeb,
    RemindersWeb,
    DayLetterWeb,
    WordingsWeb,
    NewRequestWeb,
    RequestsWeb,
    LightNotesWeb,
    LightWeb,
    LinksWeb,
    MoveWeb,
    OwedWeb,
    FieldsWeb,
    LabelsWeb,
    SeriesWeb,
    HandOverWeb,
    BookWeb,
    TypeInWeb,
    VouchersWeb,
    PlanWeb,
    PrepareWeb,
    FaultsWeb,
    BathsWeb,
    UsedWeb,
    EstimateWeb,
    ShelfWeb,
    ChoiceWeb,
    ItemsWeb,
    LotsWeb,
    MixingWeb,
    OrdersWeb,
    FormulasWeb,
    BenchCardWeb,
    CopiesWeb,
    KeepingWeb,
    PersonWeb,
    ClaimWeb,
    ProfileWeb,
    SetUpWeb,
    OutsideWeb,
    BringInWeb,
    SettingsWeb,
    TelephoneWeb,
    TemplatesWeb,
    SheetWeb,
    AfterWeb,
    TeachingByHandWeb,
    DeskTeachingWeb,
    TurnsWeb,
    WaitingWeb,
  ],
  providers: [
    ClaimService,
    BringInService,
    BringInDiary,
    BringInShelf,
    BringInPlates,
    SetUpService,
    FirstShelfService,
    TeachingUndoActs,
    DeskService,
    DaySheets,
    DeskLinks,
    LightService,
    ConcernedService,
    UsedService,
    EstimateService,
    UndoActs,
    GlancesService,
    InboxService,
    NewsService,
    NewsJobs,
  ],
})
export class DeskModule {}
