import { Module } from '@nestjs/common';
import { TravelModule } from '../travel/travel.module.js';
import { OwnJourneys } from './own-journey.service.js';
import { PeopleService } from './people.service.js';

@Module({
  imports: [TravelModule],
  providers: [PeopleService, OwnJourneys],
  exports: [PeopleService, OwnJourneys],
})
export class PeopleModule {}
