// A name as a part of an address.

/** "Kittiwake Yard & Söhne" -> "kittiwake-yard-sohne"; '' where nothing of it can stand in an address. At most 60 letters. */
export function slugText(name: string): string {
  return name
    .normalize('NFKD')
    .toLowerCase()
    .replace(/\p{M}/gu, '')
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, 60)
    .replace(/^-|-$/g, '');
}
