import { Module } from '@nestjs/common';
import { StudiosService } from './studios.service.js';

@Module({ providers: [StudiosService], exports: [StudiosService] })
export class StudiosModule {}
