/** An answer about a part: figures, their words, and what goes on the sheet. */
export interface PartAnswer {
	/** By name, SI units at the names' ends; an estimate is `{ value, uncertainty }`. */
	readonly figures: Readonly<Record<string, unknown>>;
	/** One line a figure, as the trade writes it. */
	readonly lines: readonly { readonly name: string; readonly words: string }[];
	/** The sentence to write on the sheet. */
	readonly sheetWords: string;
	/** How far the figures can be trusted. */
	readonly toleranceWords: string;
	/** Where the formula or table is from. */
	readonly sourceWords: string;
	readonly cautions: readonly string[];
}

/**
 * A share as per cent.
 * @example percentWords(0.05) // => '5 %'
 */
export function percentWords(share: number): string {
	return `${Number((100 * share).toPrecision(2))} %`;
}
