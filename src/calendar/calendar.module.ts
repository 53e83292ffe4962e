import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { PeopleModule } from '../people/people.module.js';
import { RoomModule } from '../room/room.module.js';
import { SittingsModule } from '../sittings/sittings.module.js';
import { StockModule } from '../stock/stock.module.js';
import { StudiosModule } from '../studios/studios.module.js';
import { TeachingModule } from '../teaching/teaching.module.js';
import { FeedBuilder } from './feed-builder.service.js';
import { FeedDoors } from './feed-doors.service.js';
import { FeedMemory } from './feed-memory.service.js';
import { FeedsService } from './feeds.service.js';
import { FeedFetches } from './fetches.service.js';
import { FeedsWeb } from './feeds.web.js';
import { SitterFeeds } from './sitter-feeds.service.js';
import { TeachingFeeds } from './teaching-feeds.service.js';
import { TasksService } from './tasks.service.js';

@Module({
  imports: [
    StudiosModule,
    AccountsModule,
    PeopleModule,
    RoomModule,
    StockModule,
    SittingsModule,
    TeachingModule,
  ],
  providers: [
    FeedsService,
    FeedDoors,
    FeedBuilder,
    FeedMemory,
    FeedFetches,
    FeedsWeb,
    SitterFeeds,
    TasksService,
    TeachingFeeds,
  ],
  exports: [FeedsService],
})
export class CalendarModule {}
