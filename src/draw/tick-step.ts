import { oneTwoFive } from '#core/numeric/one-two-five.ts';

/**
 * The step of 1, 2 or 5 times a power of ten that parts a range into about so many, and no more.
 * @param range above 0, in the unit of the step
 */
export const tickStep = (range: number, about: number): number => oneTwoFive(range / about);
