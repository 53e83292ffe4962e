// The owner's pages of light: a year or twelve months, a month, a day; each in its own address.
import { Controller, Get, Param, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Temporal } from 'temporal-polyfill';
import { type StaffVisit, Visits } from '../accounts/visits.service.js';
import { dayOfLight, FIRST_DATE, LAST_DATE } from '../daylight/day.calc.js';
import { page } from '../platform/http.js';
import { AppError } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import { LightMonthPage, LightYearPage } from './light.pages.js';
import { LightService } from './light.service.js';
import { LightDayPage } from './light-day.pages.js';

@Controller('s/:slug/desk/light')
export class LightWeb {
  constructor(
    private readonly visits: Visits,
    private readonly light: LightService,
    private readonly room: RoomService,
  ) {}

  /** The twelve months from this one on. */
  @Get()
  async ahead(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return page(reply, await this.months(visit, this.room.today(visit.studio).with({ day: 1 }), null));
  }

  /** A year ("2027"), a month ("2027-05") or a day ("2027-05-14"). */
  @Get(':when')
  async when(
    @Param('slug') slug: string,
    @Param('when') when: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const first = firstDateOf(when);
    if (when.length === 4) return page(reply, await this.months(visit, first, first.year));
    if (when.length === 7) {
      const until = first.add({ months: 1 }).subtract({ days: 1 });
      return page(
        reply,
        LightMonthPage({ visit, light: await this.light.days(visit.studio.id, first, until) }),
      );
    }
    const { studio, days } = await this.light.days(visit.studio.id, first, first);
    const [lit] = days;
    if (!lit) throw new Error(`${when} has no day.`);
    const day = dayOfLight(studio, first, studio.lightFloorDegrees, studio);
    return page(reply, LightDayPage({ visit, studio, lit, day }));
  }

  private async months(visit: StaffVisit, first: Temporal.PlainDate, year: number | null) {
    const until = first.add({ years: 1 }).subtract({ days: 1 });
    return LightYearPage({ visit, year, light: await this.light.days(visit.studio.id, first, until) });
  }
}

/** @throws AppError not_found for what is no date, or too far off to reckon */
function firstDateOf(when: string): Temporal.PlainDate {
  const { compare } = Temporal.PlainDate;
  try {
    if (!/^\d{4}(-\d{2}){0,2}$/.test(when)) throw new RangeError();
    const first = Temporal.PlainDate.from(`${when}-01-01`.slice(0, 10), { overflow: 'reject' });
    if (compare(first, FIRST_DATE) < 0 || compare(first, LAST_DATE) > 0) throw new RangeError();
    return first;
  } catch {
    throw new AppError('not_found', 'There is no such year, month or day here.');
  }
}
