// The sizes of plate a studio can start from, and the exact area of any plate.
// A name never stands for a size: three different half plates exist, so only millimetres are reckoned with.

/** A size to start from. The key is stable and may be stored; width is the shorter side. */
export interface StarterPlateSize {
  key: string;
  name: string;
  widthMm: number;
  heightMm: number;
}

/** One inch is 25.4 mm exactly (international inch of 1959, NIST Handbook 44, Appendix C). */
const MM_PER_INCH = 25.4;
export const UM2_PER_SQUARE_INCH = 645_160_000n;

/** Millimetres to the nearest thousandth: 3.25 * 25.4 is not 82.55 in binary, and the database keeps thousandths. */
const inch = (inches: number): number => Math.round(inches * MM_PER_INCH * 1000) / 1000;

const size = (key: string, name: string, width: number, height: number): StarterPlateSize => ({
  key,
  name,
  widthMm: inch(width),
  heightMm: inch(height),
});

/*
 * Sixteenth to whole plate: cwfp.biz/platesizes.php and licm.org.uk "Plate-Camera", which agree; their
 * centimetre columns are rounded to half a centimetre and are not used. Eighth plate: APUG forum thread 757144.
 * The British half plate is the one of the dictionaries of photography; 4 1/4 x 6 1/2 is another American usage,
 * from memory. The sizes named by their inches need no source.
 */
export const STARTER_PLATE_SIZES: readonly StarterPlateSize[] = [
  size('sixteenth', 'Sixteenth plate 1 3/8 x 1 5/8 in', 1.375, 1.625),
  size('ninth', 'Ninth plate 2 x 2 1/2 in', 2, 2.5),
  size('eighth', 'Eighth plate 2 1/8 x 3 1/4 in', 2.125, 3.25),
  size('sixth', 'Sixth plate 2 3/4 x 3 1/4 in', 2.75, 3.25),
  size('quarter', 'Quarter plate 3 1/4 x 4 1/4 in', 3.25, 4.25),
  size('4x5', '4 x 5 in', 4, 5),
  size('half-american', 'Half plate (American ferrotype) 4 1/4 x 5 1/2 in', 4.25, 5.5),
  size('4x6', '4 x 6 in', 4, 6),
  size('half-narrow', 'Half plate 4 1/4 x 6 1/2 in', 4.25, 6.5),
  size('half-british', 'Half plate (British) 4 3/4 x 6 1/2 in', 4.75, 6.5),
  size('5x7', '5 x 7 in', 5, 7),
  size('whole', 'Whole plate 6 1/2 x 8 1/2 in', 6.5, 8.5),
  size('8x10', '8 x 10 in', 8, 10),
  size('11x14', '11 x 14 in', 11, 14),
];

/** What a plate may measure on either side, in millimetres. Assumption: from a locket to a mammoth plate, and room. */
export const LEAST_SIDE_MM = 10;
export const GREATEST_SIDE_MM = 2000;

/** Whether a side can be a plate's; the answer for a form. */
export const isPlateSide = (mm: number): boolean => mm >= LEAST_SIDE_MM && mm <= GREATEST_SIDE_MM;

/**
 * The area of a plate in square micrometres, exact to the thousandth of a millimetre on each side.
 * Throws RangeError when a side is not a plate's (see isPlateSide): the door has to ask first.
 */
export function plateAreaUm2(widthMm: number, heightMm: number): bigint {
  if (!isPlateSide(widthMm) || !isPlateSide(heightMm))
    throw new RangeError(`${widthMm} x ${heightMm} mm is not the size of a plate.`);
  return BigInt(Math.round(widthMm * 1000)) * BigInt(Math.round(heightMm * 1000));
}
