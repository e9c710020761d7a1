import type { Estimate } from '#core/numeric/estimate.ts';
import { decimalWords } from './quantity-words.ts';

/** Decimals that a value with this uncertainty deserves: one figure of the uncertainty, two where it begins with 1, at most three decimals. */
function decimals(uncertainty: number): number {
	const place = Math.floor(Math.log10(Math.max(uncertainty, 1e-6)));
	const beginsWithOne = uncertainty / 10 ** place < 1.95;
	return Math.max(0, Math.min(3, (beginsWithOne ? 1 : 0) - place));
}

/**
 * An estimate with as many digits as it knows, and its unit.
 * @example estimateWords({ value: 3.14159, uncertainty: 0.02 }, 'dB') // => '3.14 \u00b1 0.02 dB'
 */
export function estimateWords({ value, uncertainty }: Estimate, unit: string): string {
	if (uncertainty === null) return `below ${decimalWords(value, 0)} ${unit}`;
	const digits = decimals(uncertainty);
	return `${decimalWords(value, digits)} \u00b1 ${uncertainty.toFixed(digits)} ${unit}`;
}

/**
 * An estimated frequency in kilocycles, to a tenth where it is known so well and to the kilocycle where it is not.
 * @param unit as it is written
 * @example kilocycleWords({ value: 455123, uncertainty: 480 }) // => '455.1 \u00b1 0.5 kc'
 */
export function kilocycleWords({ value, uncertainty }: Estimate, unit = 'kc'): string {
	if (uncertainty === null) return `${decimalWords(value / 1e3, 1)} ${unit}`;
	const digits = uncertainty >= 2e3 ? 0 : uncertainty >= 95 ? 1 : 2;
	return `${decimalWords(value / 1e3, digits)} \u00b1 ${Math.max(uncertainty / 1e3, 10 ** -digits / 2).toFixed(digits)} ${unit}`;
}

/**
 * A modulation depth in per cent.
 * @example depthWords({ value: 0.453, uncertainty: 0.018 }) // => '45 \u00b1 2 %'
 */
export function depthWords({ value, uncertainty }: Estimate): string {
	const percent = (share: number): string => (100 * share).toFixed(0);
	return uncertainty === null
		? `${percent(value)} %`
		: `${percent(value)} \u00b1 ${percent(Math.max(uncertainty, 0.01))} %`;
}

/** An estimate in hertz as one in kilocycles. */
export const inKilocycles = ({ value, uncertainty }: Estimate): Estimate => ({
	value: value / 1e3,
	uncertainty: uncertainty === null ? null : uncertainty / 1e3,
});
