import type { Estimate } from '#core/numeric/estimate.ts';
import { type Language, usualLanguage } from '#record/language.ts';
import { decimalWords, voltageWords } from '#record/quantity-words.ts';
import type { TestReading } from '#record/test-reading.ts';
import type { Difference } from './difference.ts';
import type { Finding } from './standard-test.ts';

/** Printed intervals are two standard deviations: about nineteen in twenty. */
export const coverage = 2;

/** A number with no more digits than its uncertainty leaves it. */
function trimmed(value: number, uncertainty: number): { readonly value: string; readonly uncertainty: string } {
	const least = Math.max(uncertainty, Math.abs(value) * 1e-4, 1e-12);
	// Two digits where the first is 1, else one: rounding then hides less than a third of the uncertainty.
	const power = Math.floor(Math.log10(least));
	const decimals = (least / 10 ** power < 2 ? 1 : 0) - power;
	const step = 10 ** -decimals;
	const shown = (count: number): string => decimalWords(count * step, Math.max(decimals, 0));
	return { value: shown(Math.round(value / step)), uncertainty: shown(Math.ceil(uncertainty / step - 1e-9)) };
}

function scaled(value: number, uncertainty: number, unit: string, factor: number): string {
	const words = trimmed(value * factor, coverage * uncertainty * factor);
	return `${words.value} \u00b1 ${words.uncertainty} ${unit}`;
}

/** A voltage's unit as the trade writes it. */
function voltUnit(voltageV: number): readonly [string, number] {
	const unit = voltageWords(voltageV).split(' ')[1] ?? 'V';
	return unit === 'uV' ? [unit, 1e6] : unit === 'mV' ? [unit, 1e3] : [unit, 1];
}

/** What a test found, with two standard deviations, in the trade's units. */
export function findingWords(
	{ value, unit, remarks, isRelative }: Finding,
	language: Language = usualLanguage,
): string {
	const { say } = language;
	if (value === null) return remarks[0] ?? say`not reached with the most that the generator gives`;
	const uncertainty = value.uncertainty ?? 0;
	switch (unit) {
		case 'V': {
			const volts = scaled(value.value, uncertainty, ...voltUnit(value.value));
			return isRelative ? say`${volts} on this generator` : volts;
		}
		case 'W':
			return value.value < 1 ? scaled(value.value, uncertainty, 'mW', 1e3) : scaled(value.value, uncertainty, 'W', 1);
		case 'dB':
			return scaled(value.value, uncertainty, 'dB', 1);
		case 'Hz':
			return scaled(value.value, uncertainty, frequencyUnit(largest(value), language), unitFactor(largest(value)));
		case 'share':
			return scaled(value.value, uncertainty, '%', 100);
	}
}

/** A frequency’s unit in this language. */
const frequencyUnit = (frequencyHz: number, { frequency }: Language): string =>
	frequency(frequencyHz).split(' ')[1] ?? '';

/** What decides the unit: the figure or how far it may be off, whichever is more. */
const largest = ({ value, uncertainty }: Estimate): number => Math.max(Math.abs(value), coverage * (uncertainty ?? 0));

const unitFactor = (frequencyHz: number): number => (frequencyHz < 1000 ? 1 : frequencyHz < 3e6 ? 1e-3 : 1e-6);

/** How two figures differ, in words; nothing is claimed that the gear cannot tell. */
export function differenceWords({ standing, change, after }: Difference, language: Language = usualLanguage): string {
	const { say } = language;
	if (change === null) return say`cannot be compared`;
	if (standing === 'no change that can be told') return say`no change that can be told`;
	const size = { value: Math.abs(change.value), uncertainty: change.uncertainty };
	const isDb = after.unit === 'V' || after.unit === 'W';
	const words = findingWords(
		{ ...after, value: size, unit: isDb ? 'dB' : after.unit, remarks: [], isRelative: false },
		language,
	);
	if (standing === 'better') return say`${words} better`;
	if (standing === 'worse') return say`${words} worse`;
	return change.value > 0 ? say`${words} more` : say`${words} less`;
}

/** A raw reading in the trade's units, as far as it was read. */
export function testValueWords(
	{ value, quantity, uncertainty, words }: TestReading,
	language: Language = usualLanguage,
): string {
	const { say } = language;
	if (words !== undefined) return words;
	if (value === null) return quantity === 'frequency' ? say`none` : say`not reached`;
	if (quantity === 'distortion share') return `${(100 * value).toFixed(1)} %`;
	if (quantity !== 'frequency') return voltageWords(value);
	const shown = trimmed(value * unitFactor(value), uncertainty * 2 * unitFactor(value));
	return `${shown.value} ${frequencyUnit(value, language)}`;
}
