/** A part of the page that is fetched when it is wanted did not come. */
export const partMissing = 'Peakwright does not answer: start it again, then load this page anew.';
