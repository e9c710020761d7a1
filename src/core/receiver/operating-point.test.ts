import { expect, test } from 'vitest';
import { ngspice } from '../../../test/ngspice.ts';
import { stripNetlist } from '../../../test/set-netlist.ts';
import { tm517 } from './designs/tm-517.ts';
import { diode } from './diode-law.ts';
import { factoryTurns } from './factory.ts';
import { SteadyState } from './operating-point.ts';
import { type SetValues, setValues } from './values.ts';

const toneHz = 1000;
const depth = 0.3;

/** The set with its AVC line shorted, so that strip and detector can be compared by themselves; one winding moved by a capacitance. */
function withoutAvc(movedF: number): SetValues {
	const values = setValues(tm517, { turns: factoryTurns(tm517), tuning: 0, volume: 1 });
	return {
		...values,
		detector: { ...values.detector, avcLeakS: 1e3 },
		windings: values.windings.map((winding, at) =>
			at === 2 ? { ...winding, farad: winding.farad + movedF } : winding,
		),
	};
}

/** Direct volts and peak of the tone at the detector's load, by ngspice in the time domain: AM current, strip, exponential diode, load. */
function simulated(values: SetValues, levelV: number): { directV: number; toneV: number } {
	const { tubes, detector } = values;
	const { scaleA, slopeV } = diode;
	const peakA = tubes.throughS * levelV * Math.SQRT2;
	const loadOhm = 1 / (1 / detector.loadOhm + 1 / detector.avcOhm);
	const rows = ngspice(`detector
${stripNetlist(values, tubes.ifTubeS, 1e-12)}
B1 0 1 I=${peakA}*(1+${depth}*sin(${2 * Math.PI * toneHz}*time))*sin(${2 * Math.PI * values.ifHz}*time)
B2 4 5 I=${scaleA}*exp((v(4)-v(5))/${slopeV})
RL 5 0 ${loadOhm}
CL 5 0 ${detector.reservoirF}
.control
set numdgt=12
set wr_singlescale
tran 1u 4m 2m 10n
linearize v(5)
wrdata OUT v(5)
.endc
.end
`);
	// Two whole cycles of the tone.
	const samples = rows.slice(0, 2000).map(([, volts = 0]) => volts);
	expect(samples).toHaveLength(2000);
	let cosine = 0;
	let sine = 0;
	for (const [k, volts] of samples.entries()) {
		cosine += volts * Math.cos((2 * Math.PI * k) / 1000);
		sine += volts * Math.sin((2 * Math.PI * k) / 1000);
	}
	return {
		directV: samples.reduce((sum, volts) => sum + volts, 0) / samples.length,
		toneV: Math.hypot(cosine, sine) / 1000,
	};
}

const decibels = (one: number, other: number): number => 20 * Math.log10(one / other);

// Goal chosen beforehand for 1 kc: 0.05 dB, of which up to 0.02 are the simulator's own step of 10 ns. The same law of the diode on both sides: this proves the mathematics, not that a tube obeys the law.
test.each([
	['aligned', 0, 1e-3],
	['aligned, weak', 0, 2e-4],
	['one winding 4 pF off', 4e-12, 2e-3],
])('tone and direct volts at the detector agree with ngspice in the time domain: %s', (_, movedF, levelV) => {
	const values = withoutAvc(movedF);
	const ours = new SteadyState(values).operatingPoint({
		frequencyHz: values.ifHz,
		levelV,
		toneHz,
		depth,
		into: 'converter grid',
	});
	const theirs = simulated(values, levelV);
	expect(Math.abs(decibels(ours.detectorToneV * Math.SQRT2, theirs.toneV))).toBeLessThan(0.05);
	expect(Math.abs(decibels(-ours.detectorV, theirs.directV))).toBeLessThan(0.05);
});
