import { dialAnswer } from '#advice/dial/dial-answer.ts';
import { dialGround, usualGear } from '#advice/dial/dial-marks.ts';
import { dialAnswers } from '#advice/dial/dial-pattern.ts';
import { knownGenerators } from '#advice/generator-place.ts';
import { leversOf } from '#core/estimate/dial-model.ts';
import type { BandFacts, SetFacts } from '#record/set-facts.ts';
import { dialPoints } from '../dial-points.ts';
import { dialPass } from '../dial-work.ts';
import type { RunState } from '../run-state.ts';
import type { FoundAnswer } from './found-answer.ts';

function ofBand(state: RunState, facts: SetFacts, band: BandFacts, nowMs: number): readonly FoundAnswer[] {
	const gear = state.dial.gears.find((one) => one.band === band.id) ?? usualGear;
	const ground = dialGround(facts, band, { readingM: gear.readingM, travelM: gear.travelM });
	if (ground === null) return [];
	const points = dialPoints(state.dial, band.id, leversOf(ground), knownGenerators(state.dial.checks, nowMs));
	const pass = Math.max(-1, ...points.map((point) => point.pass));
	if (points.length < 2 || pass !== dialPass(state.dial, band.id)) return [];
	return dialAnswers(dialAnswer(ground, points)).map((answer) => ({ ...answer, foundIn: 'dial' }));
}

/** What the readings of the dials say to the tests of trouble: of the pass that shows the dials as they stand. */
export function ofDial(state: RunState, facts: SetFacts, nowMs: number): readonly FoundAnswer[] {
	return facts.bands.flatMap((band) => ofBand(state, facts, band, nowMs));
}
