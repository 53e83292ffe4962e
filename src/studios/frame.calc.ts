// What every page of a studio shows around its content: its name, the way home, and where to turn.
import type { Studio } from './studios.schemas.js';

export function studioFrame(studio: Studio) {
  return {
    studioName: studio.name,
    homeHref: `/s/${studio.slug}`,
    help: { address: [studio.address], telephone: studio.telephone || undefined, email: studio.email },
  };
}
