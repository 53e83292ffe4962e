import { Global, Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { LettersToCome } from '../people/letters-to-come.service.js';
import { PeopleModule } from '../people/people.module.js';
import { RoomModule } from '../room/room.module.js';
import { SittingsModule } from '../sittings/sittings.module.js';
import { StudiosModule } from '../studios/studios.module.js';
import { TeachingModule } from '../teaching/teaching.module.js';
import { VouchersModule } from '../vouchers/vouchers.module.js';
import { WaitingModule } from '../waiting/waiting.module.js';
import { Composing } from './composing.service.js';
import { DayLetters } from './day-letters.service.js';
import { PlannedLetters } from './letters-to-come.service.js';
import { OutboxService } from './outbox.service.js';
import { Posting } from './posting.service.js';
import { RemindersJobs } from './reminders.jobs.js';
import { ReminderRulesService } from './reminder-rules.service.js';
import { RemindedService } from './reminded.service.js';
import { Reminding } from './reminding.service.js';
import { Sending } from './sending.service.js';
import { Surprises } from './surprises.service.js';
import { LanguageWeb } from './language.web.js';
import { LetterLanguage } from './letter-language.service.js';
import { WordingsService } from './wordings.service.js';
import { StopsService } from './stops.service.js';
import { StopsWeb } from './stops.web.js';
import { TeachingLetters } from './teaching-letters.service.js';
import { TelephoneService } from './telephone.service.js';

/** Global for `LettersToCome` only: sittings and teaching ask for it, and may not import what stands to their right. */
@Global()
@Module({
  imports: [
    RoomModule,
    StudiosModule,
    AccountsModule,
    PeopleModule,
    WaitingModule,
    SittingsModule,
    VouchersModule,
    TeachingModule,
  ],
  controllers: [StopsWeb, LanguageWeb],
  providers: [
    StopsService,
    LetterLanguage,
    WordingsService,
    Posting,
    Composing,
    TeachingLetters,
    RemindedService,
    Reminding,
    DayLetters,
    ReminderRulesService,
    Sending,
    OutboxService,
    Surprises,
    TelephoneService,
    RemindersJobs,
    PlannedLetters,
    { provide: LettersToCome, useExisting: PlannedLetters },
  ],
  exports: [
    LettersToCome,
    LetterLanguage,
    WordingsService,
    StopsService,
    OutboxService,
    DayLetters,
    Reminding,
    ReminderRulesService,
    Surprises,
    TelephoneService,
  ],
})
export class RemindersModule {}
