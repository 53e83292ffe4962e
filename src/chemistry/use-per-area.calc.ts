// What a plate takes of each solution and of silver, by area: the starting figures and where each is from.
// A studio's own figures replace them one by one; nothing here is reckoned.

export type SolutionKind = 'collodion' | 'developer' | 'fixer' | 'varnish';
export const SOLUTION_KINDS: readonly SolutionKind[] = ['collodion', 'developer', 'fixer', 'varnish'];

/** A figure told as a range, low <= likely <= high, with its source for "how was this reckoned?". */
export interface UseRange {
  low: bigint;
  likely: bigint;
  high: bigint;
  source: string;
}

export interface UsePerArea {
  /** Microlitres per square inch of plate. */
  solutions: Record<SolutionKind, UseRange>;
  /** Micrograms of silver nitrate out of the bath per square inch of plate: in the film and in the drops it carries off. */
  silverNitrate: UseRange;
  /** Micrograms of silver nitrate that a millilitre of the collodion takes up. */
  silverPerMlCollodion: UseRange;
}

export const DEFAULT_USE: UsePerArea = {
  solutions: {
    collodion: {
      low: 150n,
      likely: 200n,
      high: 250n,
      source:
        'From memory: 3 to 5 mL stay on a 4 x 5 in plate or dry away, the rest goes back into a bottle.',
    },
    developer: {
      low: 750n,
      likely: 1250n,
      high: 1500n,
      source:
        'From memory: 20 to 30 mL on a 4 x 5 in plate, 60 to 90 mL on 8 x 10 in. J. B. Schriever (ed.), Complete Self-Instructing Library of Practical Photography (1909), "Wet Plate Process", par. 915, has 3 to 5 oz without the size of the plate.',
    },
    fixer: {
      low: 833n,
      likely: 2500n,
      high: 2950n,
      source:
        'Assumption: one litre for twenty 4 x 5 in plates. No plates per litre were found published; reckoned from silver at a working limit of 2 g in a litre (from memory), 17 to 60 plates.',
    },
    varnish: {
      low: 100n,
      likely: 125n,
      high: 150n,
      source: 'From memory: 2 to 3 mL stay on a 4 x 5 in plate.',
    },
  },
  silverNitrate: {
    low: 9_000n,
    likely: 10_600n,
    high: 12_300n,
    source:
      'Low: 0.18 g per 4 x 5 in, 0.31 g per 5 x 7 in, 0.72 g per 8 x 10 in by titration over 23 plates; B. Cuyler, "Amount of Silver Nitrate Used Per Plate", UV Photographics blog, 14 January 2026. High: 1,920 grains for 180 plates of 7 1/2 x 7 1/2 in; E. L. Wilson, Wilson\'s Photographics (1881). Likely: the middle, an assumption.',
  },
  silverPerMlCollodion: {
    low: 12_900n,
    likely: 15_800n,
    high: 18_700n,
    source:
      "Reckoned from two formulas, if all halide reacts. Low: E. M. Estabrooke, Photography in the Studio and in the Field, p. 29, with cadmium bromide tetrahydrate. High: Wilson's Photographics, par. 131, anhydrous. Likely: the middle.",
  },
};

/** How plates fail: each try gives a keeper with this chance, whatever came before; and when one stops trying. */
export interface AttemptRule {
  /** 0.05 to 1. */
  keeperShare: number;
  /** Most tries for one keeper, at least 1; null goes on until it is made. */
  stopAfter: number | null;
  /** How alike plates of one day are, 0 to 0.5: the correlation between two of them. 0 when not given: not at all. */
  sameDay?: number;
  source: string;
}

export const SITTING_ATTEMPTS: AttemptRule = {
  keeperShare: 0.7,
  stopAfter: 3,
  source:
    'Assumption: seven of ten plates are kept. After the third try one stops: common practice, no source.',
};

/** No failure rate of beginners was found published. */
export const BEGINNER_ATTEMPTS: AttemptRule = {
  keeperShare: 0.55,
  stopAfter: null,
  source: 'From memory: one and a half to two tries for each plate kept.',
};
