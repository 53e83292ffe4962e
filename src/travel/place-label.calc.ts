// A place's name with what tells places of one name apart.

/** "Whitstable, England, United Kingdom". */
export function placeLabel(place: { name: string; region: string; country: string }): string {
  return [place.name, place.region, place.country].filter((part) => part !== '').join(', ');
}
