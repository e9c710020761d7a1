import { describe, expect, test } from 'vitest';
import { type Complex, complex } from '#core/numeric/complex.ts';
import { ngspice } from '../../../test/ngspice.ts';
import { stripNetlist } from '../../../test/set-netlist.ts';
import { AntennaCircuit } from './antenna.ts';
import { tm517 } from './designs/tm-517.ts';
import { IfStrip, node } from './if-strip.ts';
import { StripResponse, stripPoles } from './strip-system.ts';
import { type SetValues, setValues } from './values.ts';

const turns = {
	'if1-primary': 2.4,
	'if1-secondary': 2.5,
	'if2-primary': 2.3,
	'if2-secondary': 2.45,
	'wave-trap': 2.6,
	'antenna-trimmer': 1.4,
	'oscillator-trimmer': 2.6,
	padder: 3,
};
const sound = setValues(tm517, { turns, tuning: 0.6, volume: 1 });
const withFeedback = (feedbackF: number): SetValues => ({ ...sound, tubes: { ...sound.tubes, feedbackF } });
const ifTubeS = 1.6e-3;
const diodeS = 9e-6;

/** Worst difference in decibels between our answers and ngspice's over 40 kc either side of the IF. */
function worstDb(values: SetValues, answer: (frequencyHz: number) => Complex): number {
	const rows = ngspice(`strip
${stripNetlist(values, ifTubeS, diodeS)}
I1 0 1 AC 1
.control
set numdgt=14
ac lin 401 415000 495000
wrdata OUT real(v(4)) imag(v(4))
.endc
.end
`);
	expect(rows).toHaveLength(401);
	return Math.max(
		...rows.map(([frequencyHz = 0, re = 0, , im = 0]) => {
			const ours = answer(frequencyHz);
			return Math.abs(20 * Math.log10(Math.hypot(ours.re - re, ours.im - im) / Math.hypot(re, im) + 1));
		}),
	);
}

describe.each([
	['with the IF tube feeding back as designed', sound],
	['without feedback', withFeedback(0)],
	['with four times the feedback', withFeedback(0.016e-12)],
])('the IF strip %s', (_, values) => {
	test('solved at each frequency agrees with ngspice to a millionth of a decibel', () => {
		const strip = new IfStrip(values);
		const worst = worstDb(values, (frequencyHz) => {
			strip.tune(frequencyHz);
			strip.load(ifTubeS, diodeS);
			strip.drive(node.converterPlate, complex(1, 0));
			return strip.voltage(node.diode);
		});
		expect(worst).toBeLessThan(1e-6);
	});

	test('by its natural frequencies agrees with ngspice to a millionth of a decibel', () => {
		const response = new StripResponse(values, ifTubeS, diodeS, node.converterPlate, node.diode);
		expect(worstDb(values, (frequencyHz) => response.at(frequencyHz))).toBeLessThan(1e-6);
	});
});

test('feedback narrows the strip and in the end makes it oscillate', () => {
	const least = (feedbackF: number): number =>
		Math.min(...stripPoles(withFeedback(feedbackF), ifTubeS, diodeS).map(({ decayPerS }) => decayPerS));
	expect(least(0.004e-12)).toBeLessThan(least(0));
	expect(least(0.1e-12)).toBeLessThan(0);
});

test('the antenna circuits agree with ngspice, dummy antenna and wave trap included', () => {
	const { trap, antenna } = sound;
	for (const frequencyHz of [455e3, 600e3, 1000e3, 1400e3, 1910e3]) {
		const rise = frequencyHz / antenna.ohmHz;
		const coupling = antenna.mutualH / Math.sqrt(antenna.primaryH * antenna.secondaryH);
		const [row] = ngspice(`antenna
V1 s 0 AC 1
C1 s a 200p
L1 a b 20u
C2 a c 400p
R2 c b 400
LT b t ${trap.henry}
RT t p ${trap.ohm}
CT b p ${trap.farad}
LP p q ${antenna.primaryH}
RP q 0 ${antenna.primaryOhm * rise}
LS g h ${antenna.secondaryH}
RS h 0 ${antenna.secondaryOhm * rise}
KA LP LS ${coupling}
CTOP p g ${antenna.topF}
CG g 0 ${antenna.farad}
.control
set numdgt=14
ac lin 1 ${frequencyHz} ${frequencyHz}
wrdata OUT real(v(g)) imag(v(g))
.endc
.end
`) as [readonly number[]];
		const { re, im } = new AntennaCircuit(sound).transfer(frequencyHz, 'antenna');
		const [, spiceRe = 0, , spiceIm = 0] = row;
		expect(Math.hypot(re - spiceRe, im - spiceIm) / Math.hypot(re, im)).toBeLessThan(1e-9);
	}
});
