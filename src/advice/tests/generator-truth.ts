/** Readings of the standard tests with what the generator really gave, where its dial or its attenuator was checked. */
import type { TestGear, TestReading } from '#record/test-reading.ts';
import { truthOf } from '../generator-place.ts';
import type { GeneratorsKnown } from '../generators-known.ts';
import { correctedV, type MeasuredGenerator } from '../marked-level.ts';
import { withinLimit } from './finding.ts';
import { asMarked, type MarkedInputs, ratioDb } from './marked-inputs.ts';

/** Readings of one moment, corrected, and whose table corrected them. */
export interface TrueReadings {
	readonly gear: TestGear;
	readonly readings: readonly TestReading[];
	readonly inputs: MarkedInputs;
	/** `null` where levels are taken as they are marked. */
	readonly corrected: MeasuredGenerator | null;
}

/** Whether a reading is a mark of the generator's attenuator: its tone alone comes by a control of its own. */
const isMark = ({ quantity, ask }: TestReading): boolean => quantity === 'input volts' && ask !== 'audio grid';

/** Readings with the levels that the generator gave, the gear with what is left uncertain of them. */
function withLevels(
	gear: TestGear,
	readings: readonly TestReading[],
	levels: readonly MeasuredGenerator[],
	reference: string,
): TrueReadings {
	const own = readings.filter((reading) => reading.moment === gear.moment);
	const nameOf = ({ markedBy }: TestReading): string => markedBy ?? gear.generator.trim();
	const marks = own.filter(isMark);
	const corrected = levels.find(
		({ name, table }) => table.markedIn === 'volts' && marks.some((one) => nameOf(one) === name),
	);
	if (!corrected) return { gear, readings, inputs: asMarked, corrected: null };
	const uncertaintiesDb: number[] = [];
	const givenV = (markedV: number): number => {
		const { levelV, uncertaintyDb } = correctedV(levels, corrected.name, markedV);
		uncertaintiesDb.push(uncertaintyDb);
		return levelV;
	};
	const referenceV = own.findLast(({ ask }) => ask === reference)?.value ?? null;
	const trueReadings = readings.map((reading): TestReading => {
		const { moment, value } = reading;
		if (moment !== gear.moment || !value || !isMark(reading) || nameOf(reading) !== corrected.name) return reading;
		const levelV = givenV(value);
		return { ...reading, value: levelV, uncertainty: (reading.uncertainty * levelV) / value };
	});
	const worstDb = Math.max(0, ...uncertaintiesDb) / withinLimit(1);
	const { generatorLimitDb } = gear;
	return {
		gear: {
			...gear,
			attenuatorLimitDb: Math.SQRT2 * worstDb,
			generatorLimitDb: generatorLimitDb === null ? null : Math.hypot(generatorLimitDb, worstDb),
		},
		readings: trueReadings,
		inputs: {
			givenV,
			timesDb: (times) => (referenceV ? ratioDb(givenV(times * referenceV) / givenV(referenceV)) : ratioDb(times)),
		},
		corrected,
	};
}

/**
 * Gear and readings of one moment, the generator's dial and levels corrected; the readings themselves stay as they were kept.
 * @param reference id of the reading whose input others are told as multiples of
 */
export function withGeneratorTruth(
	gear: TestGear,
	readings: readonly TestReading[],
	{ dials, levels }: GeneratorsKnown,
	reference: string,
): TrueReadings {
	const levelled = withLevels(gear, readings, levels, reference);
	const own = dials.find(({ name }) => name !== '' && name === gear.generator.trim());
	if (!own) return levelled;
	const uncertaintiesHz: number[] = [];
	const truthHz = (readHz: number): number => {
		const { value, uncertainty } = truthOf(own, readHz);
		uncertaintiesHz.push(uncertainty ?? 0);
		return value;
	};
	const corrected = levelled.readings.map((reading): TestReading => {
		if (reading.moment !== gear.moment) return reading;
		// The oscillator's frequency is not read from the generator.
		const isOfGenerator = reading.quantity === 'frequency' && reading.test !== 'oscillator';
		return {
			...reading,
			...(isOfGenerator && reading.value !== null ? { value: truthHz(reading.value) } : {}),
			...(reading.generatorHz === undefined ? {} : { generatorHz: truthHz(reading.generatorHz) }),
		};
	});
	const limitHz = Math.max(0, ...uncertaintiesHz) / withinLimit(1);
	return {
		...levelled,
		gear: { ...levelled.gear, frequencyLimitHz: Math.hypot(gear.frequencyLimitHz, limitHz) },
		readings: corrected,
	};
}
