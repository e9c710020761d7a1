import { antennaLossDb } from '#core/circuit/tracking-curve.ts';
import { type BenchSet, tuningAtMark, valuesAt } from '#core/receiver/bench-set.ts';
import { designs } from '#core/receiver/designs/designs.ts';
import { factoryTurns } from '#core/receiver/factory.ts';
import { type TestFigures, testFigures, widthRatios } from '#core/receiver/test-figures.ts';
import { type Language, usualLanguage } from '#record/language.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { TestGear } from '#record/test-reading.ts';
import { dialId, imageAsk, sensitivityAsk } from './asks.ts';
import { type TestMarks, testMarks } from './marks.ts';
import { stageIds } from './stages.ts';

/** What a figure can be expected to be, and on what ground. */
export interface Expected {
	/** Of the finding. */
	readonly id: string;
	/** From where to where, in the finding's unit. */
	readonly low: number;
	readonly high: number;
	readonly basis: 'its own circuits' | 'common practice';
	readonly reason: string;
}

/** Figures of a set's circuits by the ids of the findings. */
export function figuresById(figures: TestFigures, marks: TestMarks): ReadonlyMap<string, number | null> {
	const dialsHz = [marks.lowHz, marks.middleHz, marks.highHz];
	return new Map<string, number | null>([
		...dialsHz.map((dialHz, k) => [sensitivityAsk(dialHz), figures.sensitivityV[k] ?? null] as const),
		...dialsHz.map((dialHz, k) => [dialId(dialHz), figures.dialErrorHz[k] ?? null] as const),
		...widthRatios.map((ratio, k) => [`width ${ratio}`, figures.widthsHz[k] ?? null] as const),
		['channel below', figures.adjacentDb[0] ?? null],
		['channel above', figures.adjacentDb[1] ?? null],
		...dialsHz.map((dialHz, k) => [imageAsk(dialHz), figures.imageDb[k] ?? null] as const),
		['IF', figures.ifDb],
		['AVC', figures.avcDb],
		...stageIds.map((id, k) => [id, figures.stageGainsDb[k] ?? null] as const),
	]);
}

/** Parts of one design differ from set to set: so much either way, as a share of the figure in its unit (chosen). */
const designSpreadDb = 3;
const designSpreadShare = 0.15;

function fromCircuits(
	design: BenchSet['design'],
	marks: TestMarks,
	channelHz: number,
	{ say }: Language,
): readonly Expected[] {
	const set: BenchSet = { design, faults: [], turns: factoryTurns(design), pointerSlipM: 0 };
	const figures = testFigures(
		(dialHz, volume) => valuesAt(set, tuningAtMark(set, dialHz), volume),
		[marks.lowHz, marks.middleHz, marks.highHz],
		channelHz,
	);
	return [...figuresById(figures, marks)].flatMap(([id, value]): Expected[] => {
		if (value === null || id.startsWith('dial')) return [];
		const factor = 10 ** (designSpreadDb / 20);
		const [low, high] = id.startsWith('sensitivity')
			? [value / factor, value * factor]
			: id.startsWith('width')
				? [value * (1 - designSpreadShare), value * (1 + designSpreadShare)]
				: [value - designSpreadDb, value + designSpreadDb];
		return [
			{
				id,
				low,
				high,
				basis: 'its own circuits',
				reason: say`computed from the design of ${design.name}, parts as drawn`,
			},
		];
	});
}

const computed = new Map<string, readonly Expected[]>();

/** The same design gives the same figures: they are computed once, since that takes some tenths of a second. */
function circuitsOnce(
	design: BenchSet['design'],
	marks: TestMarks,
	channelHz: number,
	language: Language,
): readonly Expected[] {
	const key = JSON.stringify([language.tag, design.id, marks.lowHz, marks.middleHz, marks.highHz, channelHz]);
	const list = computed.get(key) ?? fromCircuits(design, marks, channelHz, language);
	computed.set(key, list);
	return list;
}

/** Loaded Q of one antenna circuit, from poor to good (common practice). */
const antennaQ = { low: 30, high: 100 } as const;

/** Ranges for a table superhet with one tuned circuit before its converter: common practice and chosen, never an army or tuner figure. */
function fromCustom(facts: SetFacts, marks: TestMarks, { say }: Language): readonly Expected[] {
	const custom = (id: string, low: number, high: number, reason: string): Expected => ({
		id,
		low,
		high,
		basis: 'common practice',
		reason,
	});
	const dialsHz = [marks.lowHz, marks.middleHz, marks.highHz];
	const { ifHz } = facts;
	const imageHz = (dialHz: number): number => dialHz + (marks.band.oscillator === 'below' ? -2 : 2) * (ifHz ?? 0);
	return [
		...dialsHz.map((dialHz) =>
			custom(sensitivityAsk(dialHz), 5e-6, 60e-6, say`table sets of this kind commonly need 5 to 60 uV`),
		),
		...(ifHz === null
			? []
			: dialsHz
					.filter((dialHz) => imageHz(dialHz) > 0)
					.map((dialHz) =>
						custom(
							imageAsk(dialHz),
							antennaLossDb(antennaQ.low, dialHz, imageHz(dialHz)),
							antennaLossDb(antennaQ.high, dialHz, imageHz(dialHz)),
							say`one tuned circuit of Q ${antennaQ.low} to ${antennaQ.high} before the converter`,
						),
					)),
		custom('width 2', 5e3, 13e3, say`two IF transformers commonly leave 5 to 13 kc at twice the input`),
		custom('AVC', 25, 60, say`simple AVC commonly lets the input fall 25 to 60 dB`),
	];
}

/** Dials of table sets are commonly accepted within this, hertz: common practice, seen in a restorers' forum. */
const dialHz = 5e3;

function dialRanges({ lowHz, middleHz, highHz }: TestMarks, { say }: Language): readonly Expected[] {
	return [lowHz, middleHz, highHz].map((markHz) => ({
		id: dialId(markHz),
		low: -dialHz,
		high: dialHz,
		basis: 'common practice',
		reason: say`dials of such sets are commonly accepted within 5 kc`,
	}));
}

/** What this class of set can be expected to do: from its own circuits where they are known, else by custom. */
export function expectedFigures(
	facts: SetFacts,
	gear: Pick<TestGear, 'channelHz'>,
	language: Language = usualLanguage,
): readonly Expected[] {
	const marks = testMarks(facts);
	const design = designs[facts.card.virtualSet ?? ''];
	const list = design ? circuitsOnce(design, marks, gear.channelHz, language) : fromCustom(facts, marks, language);
	return [...list, ...dialRanges(marks, language)];
}
