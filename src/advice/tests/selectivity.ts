import { widthRatios } from '#core/receiver/test-figures.ts';
import { adjacentAsk, edgeAsk, sensitivityAsk } from './asks.ts';
import { digitShare, plainFinding, type ReadingBook, withinLimit } from './finding.ts';
import { ratioDb } from './marked-inputs.ts';
import type { BudgetShare, Finding } from './standard-test.ts';

/** One side's edges, counted from the middle, with the level at each. */
interface Skirt {
	readonly offHz: readonly number[];
	readonly levelDb: readonly number[];
}

/**
 * Steepness of a skirt at one of its edges, decibels per hertz: of the two neighbouring pieces the flatter one.
 * Below the first edge the nose is taken for a parabola, beyond the last the skirt flattens in proportion to the distance.
 */
function steepness({ offHz, levelDb }: Skirt, at: number): number {
	const x = offHz[at] as number;
	const level = levelDb[at] as number;
	const lastX = offHz[at - 1];
	const nextX = offHz[at + 1];
	const inner =
		lastX === undefined
			? (2 * level) / x
			: ((level - (levelDb[at - 1] as number)) / (x - lastX)) * (nextX === undefined ? (lastX + x) / (2 * x) : 1);
	const outer = nextX === undefined ? Number.POSITIVE_INFINITY : ((levelDb[at + 1] as number) - level) / (nextX - x);
	return Math.max(Math.min(inner, outer), 1e-6);
}

function skirt(book: ReadingBook, side: -1 | 1, centre: number): Skirt {
	const edges = widthRatios.flatMap((ratio) => {
		const edge = book.valueOf(edgeAsk(ratio, side));
		return edge ? [{ offHz: side * (edge.value - centre), levelDb: book.inputs.timesDb(ratio) }] : [];
	});
	return { offHz: edges.map(({ offHz }) => offHz), levelDb: edges.map(({ levelDb }) => levelDb) };
}

/**
 * Widths and adjacent channels from the raw readings. The output is the same in all of them, so the detector and with it AVC stand the same:
 * the ratio of the inputs is the selectivity, AVC or not.
 */
export function selectivityFindings(book: ReadingBook, middleHz: number): readonly Finding[] {
	const reference = book.valueOf(sensitivityAsk(middleHz));
	const low = book.valueOf(edgeAsk(2, -1));
	const high = book.valueOf(edgeAsk(2, 1));
	if (!reference || !low || !high) return [];
	const { say, frequency } = book.language;
	const centre = (low.value + high.value) / 2;
	const skirts = [skirt(book, -1, centre), skirt(book, 1, centre)] as const;
	const levelDb = Math.hypot(
		book.attenuatorShare.size,
		book.settingShare.size,
		digitShare(reference, say`last digit`).size,
	);
	const readHz = withinLimit(book.gear.frequencyLimitHz);
	const findings: Finding[] = [];
	widthRatios.forEach((ratio, at) => {
		if (!book.of(edgeAsk(ratio, -1)) || !book.of(edgeAsk(ratio, 1))) return;
		const below = book.valueOf(edgeAsk(ratio, -1));
		const above = book.valueOf(edgeAsk(ratio, 1));
		const perDbHz = below && above ? 1 / steepness(skirts[0], at) + 1 / steepness(skirts[1], at) : 0;
		findings.push(
			plainFinding(
				{
					id: `width ${ratio}`,
					test: 'selectivity',
					label: say`Width, ${Math.round(ratioDb(ratio))} dB down`,
					unit: 'Hz',
					better: 'neither',
					budget: [
						{ from: say`levels of the input`, size: levelDb * perDbHz, isSystematic: false },
						{
							from: say`reading the frequencies`,
							size: Math.SQRT2 * Math.hypot(readHz, below?.uncertainty ?? 0),
							isSystematic: false,
						},
					],
				},
				// Read at what the mark gave, told at what it is called: along the skirts.
				below && above ? above.value - below.value + (ratioDb(ratio) - book.inputs.timesDb(ratio)) * perDbHz : null,
			),
		);
	});
	const nose = skirts.map((one) => (one.offHz.length > 0 ? 1 / steepness(one, 0) : 0));
	// A shoulder on one side only is not seen by its edge: the two edges are taken for strangers.
	const centreHz = Math.hypot(readHz * Math.SQRT2, levelDb * (nose[0] as number), levelDb * (nose[1] as number)) / 2;
	const channel = frequency(book.gear.channelHz);
	for (const side of [-1, 1] as const) {
		const reading = book.of(adjacentAsk(side));
		if (!reading) continue;
		const inDb = reading.value === null ? null : ratioDb(reading.value / reference.value);
		const budget: BudgetShare[] = [
			book.attenuatorShare,
			book.settingShare,
			digitShare(reference, say`last digit at the best`),
			digitShare(reading, say`last digit off tune`),
			{
				from: say`where the generator stands on the skirt`,
				size: skirtDbPerHz(skirts[side < 0 ? 0 : 1], book.gear.channelHz) * Math.hypot(readHz, centreHz),
				isSystematic: false,
			},
		];
		findings.push(
			plainFinding(
				{
					id: `channel ${side < 0 ? 'below' : 'above'}`,
					test: 'selectivity',
					label: side < 0 ? say`Channel ${channel} below` : say`Channel ${channel} above`,
					unit: 'dB',
					better: 'more',
					budget,
				},
				inDb,
			),
		);
	}
	return findings;
}

/** Steepness of a skirt so far off, decibels per hertz: that of the piece it falls in, or of the steepest neighbour at a joint. */
function skirtDbPerHz({ offHz, levelDb }: Skirt, atHz: number): number {
	let steepest = 0;
	for (let k = 0; k < offHz.length; k++) {
		const from = k === 0 ? 0 : (offHz[k - 1] as number);
		const to = offHz[k] as number;
		const piece = ((levelDb[k] as number) - (k === 0 ? 0 : (levelDb[k - 1] as number))) / Math.max(to - from, 1);
		if (atHz >= 0.8 * from && atHz <= 1.25 * to) steepest = Math.max(steepest, piece);
	}
	return steepest;
}
