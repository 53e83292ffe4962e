// What plates need, for programs; the page for people is chemistry.web.ts.
import { Body, Controller, HttpCode, Post } from '@nestjs/common';
import type { z } from 'zod';
import { readInput } from '../platform/input.js';
import { Describe } from '../platform/openapi.js';
import { AppError } from '../platform/problems.js';
import { type Estimate, estimateFor, tooManyOfASize } from './asked.calc.js';
import type { Spread } from './estimate.calc.js';
import { estimateAnswer, estimateBody, SURFACES } from './estimate.schemas.js';
import { CAUTION, RECKONING, sourcesOf } from './words.calc.js';

type Answer = z.output<typeof estimateAnswer>;

@Controller('api/v1/chemistry')
export class ChemistryController {
  @Describe({
    summary:
      'Glass, solutions, silver and raw chemicals for a number of plates, as low, likely, nine in ten, high',
    body: estimateBody,
    answer: estimateAnswer,
    status: 200,
  })
  @Post('estimate')
  @HttpCode(200)
  estimate(@Body() sent: unknown): Answer {
    const asked = readInput(estimateBody, sent);
    const at = tooManyOfASize(asked);
    if (at !== null)
      throw new AppError('bad_input', undefined, [
        { field: `plates/${at}/keepers`, message: 'So many of one size are not reckoned together.' },
      ]);
    return toAnswer(estimateFor(asked));
  }
}

function toAnswer({ needs, chemicals, use, attempts }: Estimate): Answer {
  const { keeperShare, stopAfter, source } = attempts;
  return {
    attempts: { keeperShare, stopAfter, source },
    plates: needs.glass.map(({ sizeId, widthMm, heightMm, keepers, sheets }) => ({
      widthMm,
      heightMm,
      surface: SURFACES.find((one) => one === sizeId) ?? 'glass',
      keepers,
      sheets: numbers(sheets, 1),
    })),
    solutions: {
      collodion: { unit: 'mL', ...numbers(needs.solutions.collodion) },
      developer: { unit: 'mL', ...numbers(needs.solutions.developer) },
      fixer: { unit: 'mL', ...numbers(needs.solutions.fixer) },
      varnish: { unit: 'mL', ...numbers(needs.solutions.varnish) },
    },
    silverNitrate: {
      total: { unit: 'g', ...numbers(needs.silverNitrate.total) },
      inFilm: { unit: 'g', ...numbers(needs.silverNitrate.inFilm) },
    },
    chemicals: chemicals.map(({ ingredient, unit, quantity }) => ({
      ingredient,
      unit: unit === 'mg' ? 'g' : unit === 'uL' ? 'mL' : 'piece',
      ...numbers(quantity, unit === 'mg' || unit === 'uL' ? 1000 : 1),
    })),
    sources: sourcesOf(use),
    notes: [...RECKONING, CAUTION],
  };
}

/** Exact to the thousandth; a quantity of this API is far below what a double holds. */
const numbers = ({ low, likely, ninety, high }: Spread, by = 1000) => ({
  low: Number(low) / by,
  likely: Number(likely) / by,
  ninety: Number(ninety) / by,
  high: Number(high) / by,
});
