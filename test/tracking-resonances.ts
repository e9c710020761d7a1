import { type TiePoints, trackingCurve } from '#core/circuit/tracking-curve.ts';
import { trackingParts } from '#core/circuit/tracking-parts.ts';
import { ngspice } from './ngspice.ts';

export const broadcast = { lowHz: 540e3, highHz: 1600e3 };
export const usualTies: TiePoints = [600e3, 1000e3, 1400e3];
export const usualGang = { gangF: 365e-12, straysF: 30e-12, network: 'gang', otherStraysF: 8e-12 } as const;

/** How far ngspice's resonances of coil, padder, trimmer and gang lie from the oscillator's curve through the tie points: IF 175, 262 and 455 kc, the trimmer at gang and at coil, seven places of the dial. */
export function trackingMissesHz(): readonly number[] {
	const dials = [540, 600, 800, 1000, 1200, 1400, 1600].map((kc) => kc * 1e3);
	const cases = [175e3, 262e3, 455e3].flatMap((ifHz) =>
		(['gang', 'coil'] as const).flatMap((network) => {
			const made = trackingParts(usualTies, broadcast, ifHz, 'above', { ...usualGang, network });
			if (made.kind === 'refused') throw new Error(made.why);
			return dials.map((dialHz) => ({ ifHz, network, dialHz, ...made }));
		}),
	);
	const cards = cases.map(({ network, dialHz, straightH, padded }, k) => {
		const gangF = 1 / ((2 * Math.PI * dialHz) ** 2 * straightH) - usualGang.straysF;
		const otherF = usualGang.otherStraysF;
		const [acrossF, besideF] = network === 'gang' ? [padded.trimmerF, otherF] : [otherF, padded.trimmerF];
		return [
			`I${k} 0 c${k} AC 1`,
			`L${k} c${k} 0 ${padded.inductanceH}`,
			`CB${k} c${k} 0 ${besideF}`,
			`CP${k} c${k} g${k} ${padded.padderF}`,
			`CG${k} g${k} 0 ${gangF + acrossF}`,
			`R${k} c${k} 0 1e7`,
		].join('\n');
	});
	const rows = ngspice(`oscillators
${cards.join('\n')}
.control
set numdgt=12
ac lin 1401 700k 2100k
wrdata OUT ${cases.map((_, k) => `imag(1/v(c${k}))`).join(' ')}
.endc
.end
`);
	return cases.map(({ ifHz, dialHz }, k) => {
		// The susceptance crosses nought at the resonance; between a kilocycle it is straight to 0.2 c.
		const at = rows.findIndex((row) => (row[2 * k + 1] as number) > 0);
		const [below, above] = [rows[at - 1] as readonly number[], rows[at] as readonly number[]];
		const [left, right] = [below[2 * k + 1] as number, above[2 * k + 1] as number];
		const resonanceHz = (below[0] as number) - (left * 1e3) / (right - left);
		return Math.abs(resonanceHz - trackingCurve(usualTies, ifHz, 'above').oscillatorHz(dialHz));
	});
}
