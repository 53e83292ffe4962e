// How often a letter is tried before it is parked for the owner to see.

/** Fewer than the queue's tries of a job (migrations/0009): some may fail before the letter is leased. */
const MOST_TRIES = 12;

/** Whether so many tries are all there are; whoever sends a parked letter again gives it as many more. */
export const triedOut = (attempts: number): boolean => attempts > 0 && attempts % MOST_TRIES === 0;
