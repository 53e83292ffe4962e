// The doors of typing in a request that somebody made on the telephone.
import { Body, Controller, Get, Param, Post, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../accounts/visits.service.js';
import { Random } from '../platform/clock.js';
import { readDateField } from '../platform/html/kit/date-field.js';
import { formKeyOf } from '../platform/html/kit/form.js';
import { page, seeOther } from '../platform/http.js';
import { AppError, PROBLEMS } from '../platform/problems.js';
import { hasRunOut, ShowsFormAgain } from '../platform/security/forms.js';
import { RoomService } from '../room/room.service.js';
import { AskHomes } from '../sittings/ask-homes.service.js';
import { ConsentsService } from '../sittings/consents.service.js';
import { OpeningsService } from '../sittings/openings.service.js';
import { RequestsService } from '../sittings/requests.service.js';
import { agreedTo, firstTyped, problemsOfTyped, typedRequest } from './new-request.calc.js';
import { NewRequestPage, type NewRequestProps } from './new-request.pages.js';

type Answers = Record<string, unknown>;

const TOO_LATE = 'This form was open for too long, so nothing was entered yet. Please send it again.';

@Controller('s/:slug/desk/requests/new')
export class NewRequestWeb {
  constructor(
    private readonly visits: Visits,
    private readonly random: Random,
    private readonly requests: RequestsService,
    private readonly openings: OpeningsService,
    private readonly consents: ConsentsService,
    private readonly homes: AskHomes,
    private readonly room: RoomService,
  ) {}

  @Get()
  async form(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.show(visit, reply, { formKey: this.random.id() }, 200);
  }

  @ShowsFormAgain()
  @Post()
  async enter(
    @Param('slug') slug: string,
    @Body() body: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const formKey = formKeyOf(body, this.random);
    const values = this.homes.withHome(body ?? {});
    if (hasRunOut(request)) {
      const late = { formKey, values, notice: TOO_LATE };
      return this.show(visit, reply, late, PROBLEMS.form_expired.status);
    }
    const input = typedRequest(values, (name) => readDateField(values, name));
    const kept = { key: formKey, agreed: agreedTo(values) };
    try {
      const id = await this.requests.typeIn(visit.studio.id, visit.account, input, kept);
      return seeOther(reply, `/s/${slug}/desk/requests/${id}?done=typed`);
    } catch (error) {
      if (!(error instanceof AppError) || !['bad_input', 'same_key_other_request'].includes(error.code))
        throw error;
      if (error.code === 'same_key_other_request') {
        const notice = 'This was entered already. Send it again if it is a further request.';
        return this.show(visit, reply, { formKey: this.random.id(), values, notice }, error.status);
      }
      const { problems, places } = this.homes.explain(values, error.fields);
      const errors = problemsOfTyped(values, problems);
      return this.show(
        visit,
        reply,
        { formKey, values, errors, ...(places ? { places } : {}) },
        error.status,
      );
    }
  }

  private async show(
    visit: StaffVisit,
    reply: FastifyReply,
    shown: Partial<NewRequestProps> & Pick<NewRequestProps, 'formKey'>,
    status: number,
  ): Promise<string> {
    const offered = await this.openings.offered(visit.studio.id);
    const wordings = (await this.consents.words(visit.studio.id)).inForce;
    const values = firstTyped(this.room.bookable(visit.studio), offered.sizes);
    return page(reply, NewRequestPage({ visit, ...offered, wordings, values, ...shown }), status);
  }
}
