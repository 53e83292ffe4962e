import { Module } from '@nestjs/common';
import { StudiosService } from './studios.service.js';
import { StudiosWeb } from './studios.web.js';

@Module({ controllers: [StudiosWeb], providers: [StudiosService], exports: [StudiosService] })
export class StudiosModule {}
