import { usualWindingF } from '#advice/response/loaded-peaking.ts';
import { type MeasuredSweep, measuredSweep } from '#advice/response/measured-sweep.ts';
import { analyseResponse } from '#advice/response/response-answer.ts';
import type { ResponseQuestion } from '#advice/response/response-question.ts';
import { expectedFigures } from '#advice/tests/expected.ts';
import { type CurveReading, readCurve } from '#core/estimate/curve-reading.ts';
import { smoothAt } from '#core/estimate/smooth-curve.ts';
import type { RunEntry } from '#record/run.ts';
import type { Adjuster } from '#record/set-card.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { RunState } from '../run-state.ts';
import type { FoundAnswer } from './found-answer.ts';
import { heldCurves, standingCurve } from './sweep-in-run.ts';

/** Humps that differ by less are of equal height, decibels (chosen). */
const equalDb = 1.5;
/** A curve leans when its middle at 20 dB lies so far from that at 6 dB, as a share of its width at 6 dB (chosen). */
const leanShare = 0.25;
/** Off the aim beyond this, hertz: the test's own bound. */
const aimHz = 2e3;
/** Narrower than this when weak is the strip's doing, not the readings'; wider than the other it stays; between the two nothing is said (chosen). */
const narrowShare = 0.95;
const sameShare = 0.98;
/** Levels at the generator that far apart show the strip at two gains, decibels; that it stays the same is said of gains further apart (chosen). */
const apartDb = 10;
const farApartDb = 20;
const usualChannelHz = 10e3;
/** A meter that is read by hand, decibels (chosen). */
const usualMeterDb = 0.2;

const kc = (hertz: number): string => (hertz / 1e3).toFixed(1);
const widthAt = ({ bandwidths }: CurveReading, depthDb: number) =>
	bandwidths.find(({ belowPeakDb }) => belowPeakDb === depthDb);

/** The shape of a curve beside the width that such a set has; `null` where the sweep does not tell. */
function shapeOf(
	{ points, meterDb, curve }: MeasuredSweep,
	facts: SetFacts,
): { readonly outcome: string; readonly words: string } | null {
	const { humpsHz } = curve;
	const six = widthAt(curve, 6);
	if (humpsHz.length > 1) {
		// By the curve itself: a hump may lie between two readings.
		const [first, second] = humpsHz
			.map((atHz) => smoothAt(points, meterDb, atHz).levelDb)
			.sort((one, other) => other - one) as [number, number];
		const words = `${humpsHz.length} humps, at ${humpsHz.map(kc).join(' and ')} kc`;
		return { outcome: first - second < equalDb ? 'alike' : 'lopsided', words };
	}
	const deep = widthAt(curve, 20);
	if (!six) return null;
	if (deep && Math.abs(deep.centreHz.value - six.centreHz.value) > leanShare * six.widthHz.value)
		return {
			outcome: 'lopsided',
			words: `middle ${kc(six.centreHz.value)} kc at 6 dB, ${kc(deep.centreHz.value)} kc at 20 dB`,
		};
	const usual = expectedFigures(facts, { channelHz: usualChannelHz }).find(({ id }) => id === 'width 2');
	if (!usual) return null;
	const words = `${kc(six.widthHz.value)} kc wide at 6 dB, ${kc(usual.low)} to ${kc(usual.high)} kc expected by ${usual.basis}`;
	const sureHz = 2 * (six.widthHz.uncertainty ?? 0);
	if (six.widthHz.value + sureHz < usual.low) return { outcome: 'narrow', words };
	return { outcome: six.widthHz.value - sureHz > usual.high ? 'broad' : 'one', words };
}

/** Where the middle of a curve lies against the aim, if the generator is known well enough to say. */
function aimOf({ ifHz, generatorHz }: ResponseQuestion, curve: CurveReading): Omit<FoundAnswer, 'foundIn'> | null {
	const skirts = widthAt(curve, 20) ?? widthAt(curve, 6);
	if (!skirts) return null;
	const offHz = skirts.centreHz.value - ifHz;
	const unsureHz = 2 * Math.hypot(generatorHz, skirts.centreHz.uncertainty ?? 0);
	const isOff = Math.abs(offHz) > aimHz;
	if (Math.abs(Math.abs(offHz) - aimHz) < unsureHz) return null;
	const words = `middle at ${kc(skirts.centreHz.value)} kc, the aim is ${kc(ifHz)} kc`;
	return { test: 'aim', outcome: isOff ? 'off' : 'on', words };
}

/** Whether the curve grows narrow as gain rises: the mark of feedback. */
function levelOf(held: ReturnType<typeof heldCurves>, ifHz: number): Omit<FoundAnswer, 'foundIn'> | null {
	const [weak, ...others] = [...held].sort((one, other) => one.generatorDb - other.generatorDb);
	const strong = others.at(-1);
	if (!weak || !strong || strong.generatorDb - weak.generatorDb < apartDb) return null;
	const [weakWidth, strongWidth] = [weak, strong].map(({ points }) =>
		widthAt(readCurve(points, usualMeterDb, ifHz), 6),
	);
	if (!weakWidth || !strongWidth) return null;
	const share = weakWidth.widthHz.value / strongWidth.widthHz.value;
	const words = `${kc(weakWidth.widthHz.value)} kc wide weak, ${kc(strongWidth.widthHz.value)} kc ${(strong.generatorDb - weak.generatorDb).toFixed(0)} dB stronger`;
	if (share < narrowShare) return { test: 'curve-level', outcome: 'narrow', words };
	return share < sameShare || strong.generatorDb - weak.generatorDb < farApartDb
		? null
		: { test: 'curve-level', outcome: 'same', words };
}

/** What the IF curves of a run say to the tests of trouble. */
export function ofSweeps(state: RunState, entries: readonly RunEntry[], facts: SetFacts): readonly FoundAnswer[] {
	const question = standingCurve(state, entries, facts);
	if (question === null) return [];
	const measured = measuredSweep(question);
	const { curve, fit, isRefused, compressed } = measured;
	const shape = shapeOf(measured, facts);
	const read = compressed?.of6Db.value ?? null;
	const found: readonly (Omit<FoundAnswer, 'foundIn'> | null)[] = [
		shape && { test: 'curve', ...shape },
		aimOf(question, curve),
		fit && {
			test: 'curve-fit',
			outcome: isRefused ? 'refused' : 'fits',
			words: `chi-squared ${fit.chiSquaredPerDegree.toFixed(1)} per degree of freedom`,
		},
		read === null
			? null
			: {
					test: 'six-db',
					outcome: read < 4 ? 'less' : read < 8 ? 'follows' : 'more',
					words: `${read.toFixed(1)} dB at the top of the curve`,
				},
		levelOf(heldCurves(state, entries, facts), question.ifHz),
	];
	return found.flatMap((answer) => (answer === null ? [] : [{ ...answer, foundIn: 'IF curve' }]));
}

/** What an adjuster lacks whose circuit a nudge has placed: its share of capacitance or inductance, df/f = -dC/2C. */
export function missingAt(
	state: RunState,
	entries: readonly RunEntry[],
	facts: SetFacts,
): (adjuster: Adjuster) => string | null {
	const question = standingCurve(state, entries, facts);
	if (question === null || question.nudges.length === 0) return () => null;
	const { adjusters } = analyseResponse(question).answer;
	return ({ id, kind }) => {
		const own = adjusters.find(({ name }) => name === id);
		if (!own) return null;
		const { offHz } = own;
		const share = (2 * Math.abs(offHz)) / question.ifHz;
		const way = offHz > 0 ? 'more' : 'less';
		const place = `its circuit ${kc(Math.abs(offHz))} kc ${offHz > 0 ? 'high' : 'low'}`;
		return kind === 'slug'
			? `${place}: ${(100 * share).toFixed(1)} % ${way} inductance wanted`
			: `${place}: about ${(share * usualWindingF * 1e12).toFixed(1)} mmf ${way} wanted, where ${(usualWindingF * 1e12).toFixed(0)} mmf are across it`;
	};
}
