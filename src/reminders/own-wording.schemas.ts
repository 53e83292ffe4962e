// The owner's own words in a letter that is in the outbox.
import { z } from 'zod';

/** What a letter takes along, so that a second attempt is the same letter. */
export const ownWording = z.object({
  kind: z.string(),
  version: z.number(),
  subject: z.string(),
  body: z.string(),
});
export type OwnWording = z.output<typeof ownWording>;
