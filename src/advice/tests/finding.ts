import { standardOutputV } from '#core/receiver/sensitivity.ts';
import { type Language, usualLanguage } from '#record/language.ts';
import type { TestGear, TestReading } from '#record/test-reading.ts';
import { asMarked, type MarkedInputs, ratioDb } from './marked-inputs.ts';
import type { BudgetShare, Finding } from './standard-test.ts';

/** Standard uncertainty of a value that lies anywhere within a limit. */
export const withinLimit = (most: number): number => most / Math.sqrt(3);

const dbPerNeper = 20 / Math.LN10;

/** Root of the sum of squares: parts that know nothing of each other. */
export function together(budget: readonly BudgetShare[]): number {
	return Math.hypot(...budget.map(({ size }) => size));
}

/** The last digit of a reading as decibels. */
export function digitShare({ value, uncertainty }: TestReading, from: string): BudgetShare {
	return { from, size: value ? dbPerNeper * (uncertainty / Math.abs(value)) : 0, isSystematic: false };
}

/** A finding in volts or watts from a level: its budget is in decibels. */
export function levelFinding(
	what: Omit<Finding, 'value' | 'isRelative' | 'remarks'> & Partial<Pick<Finding, 'isRelative' | 'remarks'>>,
	value: number | null,
): Finding {
	const perDb = what.unit === 'W' ? 10 : 20;
	const uncertainty = value === null ? 0 : value * (10 ** (together(what.budget) / perDb) - 1);
	return { isRelative: false, remarks: [], ...what, value: value === null ? null : { value, uncertainty } };
}

/** A finding whose budget is in its own unit: decibels, hertz, shares. */
export function plainFinding(
	what: Omit<Finding, 'value' | 'isRelative' | 'remarks'> & Partial<Pick<Finding, 'isRelative' | 'remarks'>>,
	value: number | null,
): Finding {
	return {
		isRelative: false,
		remarks: [],
		...what,
		value: value === null ? null : { value, uncertainty: together(what.budget) },
	};
}

/** The readings of one moment by what they were asked for; the latest of each counts. */
export class ReadingBook {
	readonly #byAsk: ReadonlyMap<string, TestReading>;
	readonly gear: TestGear;
	/** In which findings are said. */
	readonly language: Language;
	/** What inputs give that are set by their mark. */
	readonly inputs: MarkedInputs;

	constructor(
		readings: readonly TestReading[],
		gear: TestGear,
		language: Language = usualLanguage,
		inputs: MarkedInputs = asMarked,
	) {
		this.#byAsk = new Map(readings.filter(({ moment }) => moment === gear.moment).map((one) => [one.ask, one]));
		this.gear = gear;
		this.language = language;
		this.inputs = inputs;
	}

	/** A reading, or nothing where it was not taken. */
	of(ask: string): TestReading | undefined {
		return this.#byAsk.get(ask);
	}

	/** A reading that has a value. */
	valueOf(ask: string): (TestReading & { readonly value: number }) | undefined {
		const reading = this.#byAsk.get(ask);
		return reading && reading.value !== null ? { ...reading, value: reading.value } : undefined;
	}

	/**
	 * Decibels of output for one decibel of input near the standard output, from the reading at twice the input.
	 * AVC follows the detector, so it is the same wherever the output is the same. 0.7 where it was not read (chosen: AVC at work).
	 */
	get outputPerInput(): number {
		const doubled = this.valueOf('output doubled');
		const standardV = this.standardV;
		return doubled ? Math.max(ratioDb(doubled.value / standardV) / this.inputs.timesDb(2), 0.3) : 0.7;
	}

	/** Volts at the load that are the standard output; at the usual load where it is not known. */
	get standardV(): number {
		return standardOutputV(this.gear.loadOhm ?? usualLoadOhm);
	}

	/** What the output meter's own error does to an input that was read at the standard output. */
	get meterShare(): BudgetShare {
		return {
			from: this.language.say`output meter`,
			size: withinLimit(this.gear.meterLimitDb) / this.outputPerInput,
			isSystematic: true,
		};
	}

	/** Scatter of setting the output to a mark twice. */
	get settingShare(): BudgetShare {
		return {
			from: this.language.say`setting the output`,
			size: (Math.SQRT2 * settingDb) / this.outputPerInput,
			isSystematic: false,
		};
	}

	/** An output read again on another day: hum, noise and line voltage are not the same twice (chosen). */
	get againShare(): BudgetShare {
		return { from: this.language.say`reading it again`, size: 0.3, isSystematic: false };
	}

	/** A ratio of two settings of the attenuator. */
	get attenuatorShare(): BudgetShare {
		return {
			from: this.language.say`attenuator steps`,
			size: withinLimit(this.gear.attenuatorLimitDb),
			isSystematic: false,
		};
	}
}

/** How well a hand brings a meter to a mark (chosen). */
const settingDb = 0.1;
/** Voice coils of small sets: common practice. */
export const usualLoadOhm = 3.2;
