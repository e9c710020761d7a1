import { expect, test } from 'vitest';
import { ngspice } from '../../../test/ngspice.ts';
import { attenuator, attenuatorFigures } from './attenuator.ts';

/** Loss and input resistance by ngspice: one volt behind the source impedance, the load alone against the load behind the attenuator. */
function simulated(arms: string, impedanceOhm: number): readonly [number, number] {
	const [row = []] = ngspice(`attenuator
V1 s 0 DC 1
RS s in ${impedanceOhm}
${arms}
RL out 0 ${impedanceOhm}
.control
option numdgt=12
op
let loss = -20*log10(2*v(out))
let zin = v(in)/((1-v(in))/${impedanceOhm})
wrdata OUT loss zin
.endc
.end`);
	return [row[1] ?? Number.NaN, row[3] ?? Number.NaN];
}

test('attenuators lose what they are made for and keep their impedance, also by ngspice', () => {
	for (const [impedanceOhm, lossDb] of [
		[50, 20],
		[75, 6],
		[400, 40],
	] as const) {
		const t = attenuator('T', impedanceOhm, lossDb);
		const pi = attenuator('pi', impedanceOhm, lossDb);
		for (const [pad, arms] of [
			[t, `R1 in m ${t.seriesOhm}\nR2 m 0 ${t.shuntOhm}\nR3 m out ${t.seriesOhm}`],
			[pi, `R1 in 0 ${pi.shuntOhm}\nR2 in out ${pi.seriesOhm}\nR3 out 0 ${pi.shuntOhm}`],
		] as const) {
			const [simulatedDb, simulatedOhm] = simulated(arms, impedanceOhm);
			expect(simulatedDb).toBeCloseTo(lossDb, 5);
			expect(simulatedOhm / impedanceOhm).toBeCloseTo(1, 5);
			expect(attenuatorFigures(pad, impedanceOhm).lossDb).toBeCloseTo(lossDb, 9);
		}
	}
});

test('preferred values give the loss and impedance that ngspice finds', () => {
	const pad = { shape: 'pi', seriesOhm: 240, shuntOhm: 62 } as const;
	const [lossDb, inputOhm] = simulated('R1 in 0 62\nR2 in out 240\nR3 out 0 62', 50);
	const figures = attenuatorFigures(pad, 50);
	expect(figures.lossDb).toBeCloseTo(lossDb, 5);
	expect(figures.inputOhm).toBeCloseTo(inputOhm, 4);
});
