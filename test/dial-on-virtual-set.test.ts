import { expect, test } from 'vitest';
import { dialAnswer } from '#advice/dial/dial-answer.ts';
import { dialGround, scaleMarksHz, spreadMarksHz } from '#advice/dial/dial-marks.ts';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { standardTone } from '#core/receiver/signal.ts';
import { tamperedSet } from '#core/receiver/truth.ts';
import { VirtualSet } from '#instruments/virtual/virtual-set.ts';
import { exampleCard, factsOf } from './example-set.ts';

/** Where the set hears most with its pointer on a mark, found by the output alone as a hand would: wide, then fine. */
function foundHz(set: VirtualSet, dialHz: number, nearHz: number): number {
	let bestHz = nearHz;
	for (const [reachHz, stepHz] of [
		[130e3, 4e3],
		[6e3, 1e3],
		[1e3, 100],
	] as const) {
		const centreHz = bestHz;
		let bestDb = Number.NEGATIVE_INFINITY;
		for (let at = centreHz - reachHz; at <= centreHz + reachHz; at += stepHz) {
			set.place({ frequencyHz: at, ...standardTone, into: 'antenna' }, dialHz);
			const levelDb = set.read(0).levelDb?.value ?? Number.NEGATIVE_INFINITY;
			if (levelDb > bestDb) [bestDb, bestHz] = [levelDb, at];
		}
	}
	return bestHz;
}

/** Turns a screw until the generator's frequency is heard best there. */
function broughtIn(set: VirtualSet, adjuster: string, dialHz: number, wantedHz: number): void {
	for (let step = 0.5; step > 0.002; step /= 2) {
		const off = foundHz(set, dialHz, wantedHz) - wantedHz;
		// Clockwise adds capacitance, which lowers what comes in.
		set.turn(adjuster, Math.sign(off) * step);
	}
}

test('the demo set, tens of kilocycles off, is brought to within a few in two acts by its readings alone', () => {
	const facts = factsOf(exampleCard());
	const [band] = facts.bands;
	if (!band) throw new Error('no band');
	const ground = dialGround(facts, band, { readingM: 0.1e-3, travelM: 0.122 });
	if (!ground) throw new Error('no IF');
	const marksHz = scaleMarksHz(facts, band);
	const set = new VirtualSet(tamperedSet(tm517, 1), 1, null);
	// The tampering of this seed, with the trimmer screwed in a little more.
	set.turn('oscillator-trimmer', 0.15);
	set.changeLevel(-20);
	const errorsOf = () =>
		spreadMarksHz(ground, marksHz, 7).map((dialHz) => ({ dialHz, heardHz: foundHz(set, dialHz, dialHz) }));
	const points = errorsOf().map((one) => ({ ...one, heardUncertaintyHz: 300, pass: 0 }));
	const worst = (all: readonly { dialHz: number; heardHz: number }[]): number =>
		Math.max(...all.map(({ dialHz, heardHz }) => Math.abs(heardHz - dialHz)));
	const before = worst(points);
	expect(before).toBeGreaterThan(25e3);
	const { plan } = dialAnswer(ground, points, marksHz);
	expect(plan.acts.length).toBeGreaterThan(0);
	for (const { adjuster, sitAtDialHz, bringInHz } of plan.acts) {
		broughtIn(set, adjuster === 'trimmer' ? 'oscillator-trimmer' : 'padder', sitAtDialHz, bringInHz);
	}
	expect(worst(errorsOf())).toBeLessThan(6e3);
});
