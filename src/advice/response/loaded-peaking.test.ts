import { expect, test } from 'vitest';
import { ngspice } from '../../../test/ngspice.ts';
import { loadedActs, loadedPeaking } from './loaded-peaking.ts';

// A parallel circuit's Q is R / X: with X = 1 / (w C) and R the winding's own in parallel with the part. Closed form.
test('the computed resistor brings a winding of 110 mmf and Q 80 to a Q of 10, and a part that can be bought comes near it', () => {
	const { computedOhm, fittedOhm, cautions } = loadedPeaking(455e3, 4);
	const reactanceOhm = 1 / (2 * Math.PI * 455e3 * 110e-12);
	const ownOhm = 80 * reactanceOhm;
	const parallelOhm = 1 / (1 / ownOhm + 1 / computedOhm);
	expect(Math.abs(parallelOhm / reactanceOhm - 10)).toBeLessThan(0.05);
	expect(Math.abs(fittedOhm / computedOhm - 1)).toBeLessThan(0.1);
	expect(cautions.map(({ words }) => words).join(' ')).toMatch(/unplugged.*proved dead.*630 V/);
});

const ifHz = 455e3;
const inductanceH = 1.1e-3;
/** Three windings of Q 80, next coupled to next by 1.2 times the critical coupling. */
const coupling = 1.2 / 80;

/** Output at the IF of three coupled windings on each of many tunings, as ngspice sees them: one copy of the circuit for each. */
function atIfDb(tunings: readonly (readonly number[])[], shuntOhms: readonly (number | null)[]): readonly number[] {
	const copies = tunings.flatMap((windingsHz, copy) => [
		`I${copy} 0 a${copy} AC 1m`,
		...windingsHz.flatMap((hertz, place) => {
			const node = `${'abc'[place]}${copy}`;
			const shuntOhm = shuntOhms[place] ?? null;
			return [
				`C${node} ${node} 0 ${1 / ((2 * Math.PI * hertz) ** 2 * inductanceH)}`,
				`L${node} ${node} x${node} ${inductanceH}`,
				`R${node} x${node} 0 ${(2 * Math.PI * ifHz * inductanceH) / 80}`,
				...(shuntOhm === null ? [] : [`RS${node} ${node} 0 ${shuntOhm}`]),
			];
		}),
		`K${copy}a La${copy} Lb${copy} ${coupling}`,
		`K${copy}b Lb${copy} Lc${copy} ${coupling}`,
	]);
	const outputs = tunings.map((_, copy) => `vdb(c${copy})`).join(' ');
	const netlist = ['triple', ...copies, '.control', 'ac lin 1 455k 455k', `wrdata OUT ${outputs}`, '.endc', '.end'];
	const [row] = ngspice(netlist.join('\n'));
	return (row ?? []).filter((_, place) => place % 2 === 1);
}

/** Each winding for most at the IF, last first, with these parts across the windings meanwhile. */
function peaked(startHz: readonly number[], passes: number, shuntOhms: (peakedWinding: number) => (number | null)[]) {
	const windingsHz = [...startHz];
	for (let pass = 0; pass < passes; pass++) {
		for (const winding of [2, 1, 0]) {
			const tried = Array.from({ length: 61 }, (_, step) => windingsHz.with(winding, ifHz + 200 * (step - 30)));
			const levels = atIfDb(tried, shuntOhms(winding));
			expect(levels).toHaveLength(tried.length);
			windingsHz[winding] = tried[levels.indexOf(Math.max(...levels))]?.[winding] as number;
		}
	}
	return windingsHz.map((hertz) => Math.abs(hertz - ifHz));
}

// ngspice is run live: an independent circuit simulator.
test('of three coupled windings each peaks on the IF while the two others are damped, where plain peaking leaves them off', () => {
	const { fittedOhm, words } = loadedPeaking(ifHz, 6);
	const startHz = [459e3, 459e3, 459e3];
	const loadedOffHz = peaked(startHz, 1, (own) => [0, 1, 2].map((winding) => (winding === own ? null : fittedOhm)));
	const plainOffHz = peaked(startHz, 2, () => [null, null, null]);
	expect(Math.max(...loadedOffHz)).toBeLessThanOrEqual(600);
	expect(Math.max(...plainOffHz)).toBeGreaterThan(1000);
	const onIf = [[ifHz, ifHz, ifHz]];
	const [free, damped] = [
		[null, null, null],
		[null, fittedOhm, fittedOhm],
	].map((ohms) => atIfDb(onIf, ohms)[0] ?? 0);
	const lossDb = Number(/three tuned.*?falls by some (\d+) dB/.exec(words.join(' '))?.[1]);
	expect(Math.abs((free ?? 0) - (damped ?? 0) - lossDb)).toBeLessThan(3);
	expect(loadedPeaking(ifHz, 4).words.join(' ')).not.toContain('three');
});

test('each adjuster is peaked with the other windings of its can damped, in the order of the work', () => {
	const screw = (id: string, transformer?: number) =>
		({
			id,
			name: id,
			stage: 'IF',
			kind: 'compression trimmer',
			...(transformer === undefined ? {} : { transformer }),
		}) as const;
	const adjusters = [screw('a', 1), screw('b', 1), screw('c', 2), screw('d', 2), screw('e', 2), screw('f')];
	const acts = loadedActs(['e', 'd', 'a', 'f'], adjusters);
	expect(acts.map(({ adjuster, partners }) => [adjuster.id, partners.map(({ id }) => id)])).toEqual([
		['e', ['c', 'd']],
		['d', ['c', 'e']],
		['a', ['b']],
		['f', []],
	]);
});
