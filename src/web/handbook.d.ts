declare module 'virtual:handbook' {
	/** Pages in their order. */
	export const pages: readonly import('./state/handbook-search.ts').HandbookPage[];
	/** Lists of words that mean the same, in small letters. */
	export const sameWords: readonly (readonly string[])[];
}
