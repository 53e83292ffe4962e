// A place's name with what tells places of one name apart.

/** "Whitstable, England, United Kingdom"; "Hamburg, Germany", whose region is named alike. */
export function placeLabel(place: { name: string; region: string; country: string }): string {
  const region = place.region === place.name ? '' : place.region;
  return [place.name, region, place.country].filter((part) => part !== '').join(', ');
}

/** For choosing one of several. */
export const placeOptions = (
  places: readonly { id: number; name: string; region: string; country: string }[],
): { value: string; label: string }[] =>
  places.map((place) => ({ value: String(place.id), label: placeLabel(place) }));
