// The table of contents: one line per feature, each importing only from those above it.
import { type DynamicModule, Module } from '@nestjs/common';
import { AccountsModule } from './accounts/accounts.module.js';
import { BackupModule } from './backup/backup.module.js';
import { CalendarModule } from './calendar/calendar.module.js';
import { ChemistryModule } from './chemistry/chemistry.module.js';
import { DaylightModule } from './daylight/daylight.module.js';
import { DeskModule } from './desk/desk.module.js';
import { OutsideModule } from './outside/outside.module.js';
import { PeopleModule } from './people/people.module.js';
import { PlatesModule } from './plates/plates.module.js';
import { type Platform, PlatformModule } from './platform/platform.module.js';
import { PrivacyModule } from './privacy/privacy.module.js';
import { RemindersModule } from './reminders/reminders.module.js';
import { RoomModule } from './room/room.module.js';
import { SittingsModule } from './sittings/sittings.module.js';
import { StockModule } from './stock/stock.module.js';
import { StudiosModule } from './studios/studios.module.js';
import { TeachingModule } from './teaching/teaching.module.js';
import { TravelModule } from './travel/travel.module.js';
import { VouchersModule } from './vouchers/vouchers.module.js';
import { WaitingModule } from './waiting/waiting.module.js';

@Module({})
export class AppModule {
  static with(platform: Platform): DynamicModule {
    return {
      module: AppModule,
      imports: [
        PlatformModule.with(platform), // settings, clock, database, queue, mailer
        StudiosModule, // where a studio stands and how it takes bookings
        AccountsModule, // owner and assistant, sessions, secret links
        DaylightModule, // sun, light window, exposure; the studio's exposure notes
        ChemistryModule, // what plates need and baths lose; what days took, and the figures learned from it
        TravelModule, // places and distances
        PeopleModule, // contacts and sitters
        OutsideModule, // outside calendars, and when the owner is busy by them
        RoomModule, // the rhythm, open places, what takes the room
        StockModule, // the shelf: lots, setting aside, giving back
        WaitingModule, // offers of a place and the rule of the list, for whatever can be waited for
        SittingsModule, // asking, deciding, offers, giving up
        TeachingModule, // templates and days of teaching, signing up for them
        PlatesModule, // what is owed after the day, until plates have left
        VouchersModule, // gift vouchers, and surprises
        CalendarModule, // feeds
        PrivacyModule, // a person's data given out, and erased
        BackupModule, // copies of a studio, and putting one back
        RemindersModule, // letters and their sending
        DeskModule, // the owner's pages
      ],
    };
  }
}
