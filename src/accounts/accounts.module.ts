import { Module } from '@nestjs/common';
import { StudiosModule } from '../studios/studios.module.js';
import { AccountsController } from './accounts.controller.js';
import { AccountsService } from './accounts.service.js';
import { AccountsWeb } from './accounts.web.js';
import { InvitationsService } from './invitations.service.js';
import { LinksService } from './links.service.js';
import { OwnAccountService } from './own-account.service.js';
import { SecondFactorService } from './second-factor.service.js';
import { SignInsService } from './sign-ins.service.js';
import { SignInLimit } from './sign-in-limit.js';
import { SweepJobs } from './sweep.jobs.js';
import { SweepService } from './sweep.service.js';
import { Visits } from './visits.service.js';

@Module({
  imports: [StudiosModule],
  controllers: [AccountsWeb, AccountsController],
  providers: [
    AccountsService,
    InvitationsService,
    LinksService,
    OwnAccountService,
    SecondFactorService,
    SignInsService,
    SignInLimit,
    SweepJobs,
    SweepService,
    Visits,
  ],
  exports: [AccountsService, InvitationsService, LinksService, OwnAccountService, Visits],
})
export class AccountsModule {}
