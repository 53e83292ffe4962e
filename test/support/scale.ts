// How much the heavy tests do: `npm test` runs the quick counts, `npm run test:deep` the full ones.

/** The full count in a deep run (PLATEDAY_DEEP=1), else the quick one. */
export const scale = (deep: number, quick: number): number =>
  process.env.PLATEDAY_DEEP === '1' ? deep : quick;
