// What every feature may ask for: settings, clock, chance, database, queue, mailer. Made outside Nest,
// so that a test hands in its own clock or mailer and each has one plain way in.
import { type DynamicModule, Global, Module } from '@nestjs/common';
import { Clock, Random } from './clock.js';
import { Config } from './config.js';
import { Db } from './db/db.js';
import { DoorsController } from './doors.controller.js';
import { Jobs } from './jobs/registry.js';
import { Mailer } from './mailer.js';

export interface Platform {
  config: Config;
  clock: Clock;
  random: Random;
  db: Db;
  jobs: Jobs;
  mailer: Mailer;
}

@Global()
@Module({})
export class PlatformModule {
  static with(platform: Platform): DynamicModule {
    const providers = [
      { provide: Config, useValue: platform.config },
      { provide: Clock, useValue: platform.clock },
      { provide: Random, useValue: platform.random },
      { provide: Db, useValue: platform.db },
      { provide: Jobs, useValue: platform.jobs },
      { provide: Mailer, useValue: platform.mailer },
    ];
    return {
      module: PlatformModule,
      controllers: [DoorsController],
      providers,
      exports: providers.map((one) => one.provide),
    };
  }
}
