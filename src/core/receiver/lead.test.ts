import { expect, test } from 'vitest';
import { complex, size } from '#core/numeric/complex.ts';
import { ngspice } from '../../../test/ngspice.ts';
import { stripNetlist } from '../../../test/set-netlist.ts';
import { tonePeak } from '../../../test/tone-peak.ts';
import { tm517 } from './designs/tm-517.ts';
import { diode } from './diode-law.ts';
import { factoryTurns } from './factory.ts';
import { IfStrip, node } from './if-strip.ts';
import { ifGridLeadS, withLead } from './lead.ts';
import { SteadyState } from './operating-point.ts';
import { SetStream } from './set-stream.ts';
import type { SetSignal, SignalInto } from './signal.ts';
import { setValues } from './values.ts';

const sound = setValues(tm517, { turns: factoryTurns(tm517), tuning: 0, volume: 0.5 });
const decibels = (one: number, other: number): number => 20 * Math.log10(one / other);

// The condenser of 0.1 mfd is in the netlist and left out by ours: 3.5 ohms beside 50, at right angles, are 0.02 dB.
test('a generator at the IF tube\u2019s grid agrees with ngspice over 30 kc either side of the IF', () => {
	const ifTubeS = 1.6e-3;
	const diodeS = 9e-6;
	const rows = ngspice(`grid
${stripNetlist(sound, ifTubeS, diodeS)}
V1 s 0 AC 1
RS s c ${1 / ifGridLeadS}
CS c 2 0.1u
.control
set numdgt=14
ac lin 61 425000 485000
wrdata OUT real(v(4)) imag(v(4))
.endc
.end
`);
	expect(rows).toHaveLength(61);
	const strip = new IfStrip(withLead(sound, 'IF grid'));
	for (const [frequencyHz = 0, re = 0, , im = 0] of rows) {
		strip.tune(frequencyHz);
		strip.load(ifTubeS, diodeS);
		strip.drive(node.ifGrid, complex(ifGridLeadS, 0));
		expect(Math.abs(decibels(size(strip.voltage(node.diode)), Math.hypot(re, im)))).toBeLessThan(0.03);
	}
});

// Ours takes the tone at the top of the volume control for the generator's own: the netlist has the diode, which holds its peaks, and both condensers.
test.each([0.02, 1])('a tone of %d V at the volume control is there whole by ngspice, diode and all', (levelV) => {
	const { loadOhm, avcOhm, avcF, reservoirF } = sound.detector;
	const rows = ngspice(`volume
V1 s 0 sin(0 ${levelV * Math.SQRT2} 400)
RS s c 50
CS c 5 0.1u
B2 0 5 I=${diode.scaleA}*exp(-v(5)/${diode.slopeV})
RL 5 0 ${loadOhm}
CL 5 0 ${reservoirF}
RA 5 6 ${avcOhm}
CA 6 0 ${avcF}
.control
set numdgt=12
set wr_singlescale
tran 20u 500m 490m 5u
linearize v(5)
wrdata OUT v(5)
.endc
.end
`);
	const samples = rows.slice(0, 500).map(([, volts = 0]) => volts);
	expect(samples).toHaveLength(500);
	expect(Math.abs(decibels(tonePeak(samples, 4), levelV * Math.SQRT2))).toBeLessThan(0.05);
});

const settled = (signal: SetSignal): number => {
	const stream = new SetStream(withLead(sound, signal.into), [signal], 48e3, null);
	stream.fill(new Float64Array(36e3));
	const samples = new Float64Array(4800);
	stream.fill(samples);
	return tonePeak(samples, signal.toneHz / 10) / Math.SQRT2;
};

// As close as stream and steady state are through the converter: the steady state counts the tone as small, and a weak carrier's diode bends.
test.each<[SignalInto, number, number]>([
	['IF grid', 2e-3, 0],
	['IF grid', 5e-2, 0],
	['IF grid', 2e-2, 8e3],
	['audio grid', 0.02, 0],
	['audio grid', 0.5, 0],
])(
	'what is heard with the lead at the %s, %d V, %d c off the IF, is what the steady state says',
	(into, levelV, offHz) => {
		const signal: SetSignal = { frequencyHz: sound.ifHz + offHz, levelV, toneHz: 400, depth: 0.3, into };
		const steady = new SteadyState(withLead(sound, into)).operatingPoint(signal);
		expect(Math.abs(decibels(settled(signal), steady.toneV))).toBeLessThan(0.2);
	},
);

test('a tone at the volume control sounds as loud as a carrier that leaves the same tone there', () => {
	const steady = new SteadyState(sound);
	const place = { toneHz: 400, depth: 0.3, frequencyHz: sound.ifHz } as const;
	const carried = steady.operatingPoint({ ...place, levelV: 1e-3, into: 'converter grid' });
	const straight = steady.operatingPoint({ ...place, levelV: carried.detectorToneV, into: 'audio grid' });
	expect(straight.toneV).toBeCloseTo(carried.toneV, 9);
});
