// An address as a QR code (ISO/IEC 18004) that a phone's camera reads, drawn as SVG on the server. Always dark on white,
// in dark surroundings too: many cameras do not read it the other way round.
import { encode } from 'uqr';

/** Modules of white around it, as the standard asks for. */
const QUIET = 4;
/** So large a module is on screen that a code of 57 modules fits a small phone. */
const MODULE_PX = 4;

/**
 * No stroke: the style sheet gives one to every drawing, which would fill the gaps.
 * @param text at most 2,331 octets (the largest code with 15 % repair)
 * @throws when it is longer
 */
export function QrCode({ text, label }: { text: string; label: string }) {
  const { size, data } = encode(text, { ecc: 'M', border: QUIET });
  return (
    <svg
      class="qr-code"
      viewBox={`0 0 ${size} ${size}`}
      width={size * MODULE_PX}
      height={size * MODULE_PX}
      role="img"
      aria-label={label}
    >
      <rect width={size} height={size} fill="#fff" stroke="none" />
      <path fill="#000" stroke="none" shape-rendering="crispEdges" d={data.map(rowPath).join('')} />
    </svg>
  );
}

/** The dark stretches of a row, each as one bar a module high. */
function rowPath(row: boolean[], y: number): string {
  let path = '';
  for (let x = 0; x < row.length; x++) {
    if (!row[x]) continue;
    const from = x;
    while (row[x + 1]) x++;
    path += `M${from} ${y}h${x - from + 1}v1h-${x - from + 1}z`;
  }
  return path;
}
