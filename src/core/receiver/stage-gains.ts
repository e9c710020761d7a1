import { withLead } from './lead.ts';
import { SteadyState } from './operating-point.ts';
import { bestNearHz, inputForOutputV, standardOutputV } from './sensitivity.ts';
import { type SignalInto, standardTone } from './signal.ts';
import type { SetValues } from './values.ts';

/** Where the generator goes after the antenna, at which frequency, and how far about it the best is sought. */
const steps: readonly { readonly into: SignalInto; readonly at: 'signal' | 'IF'; readonly reachHz: number }[] = [
	{ into: 'converter grid', at: 'signal', reachHz: 60e3 },
	{ into: 'converter grid', at: 'IF', reachHz: 20e3 },
	{ into: 'IF grid', at: 'IF', reachHz: 20e3 },
	{ into: 'audio grid', at: 'IF', reachHz: 0 },
];

/**
 * How many decibels more input each place along a set needs for the standard output than the place before it, from antenna to the top of the volume control;
 * last the gain from there to the output. `null` where 2 V do not reach it.
 * @param sensitivityV volts at the antenna for the standard output, at `signalHz`
 */
export function stageGainsDb(
	values: SetValues,
	signalHz: number,
	sensitivityV: number | null,
): readonly (number | null)[] {
	const wantedV = standardOutputV(values.audio.voiceCoilOhm);
	const inputs = steps.map(({ into, at, reachHz }) => {
		const steady = new SteadyState(withLead(values, into));
		const nearHz = at === 'IF' ? values.ifHz : signalHz;
		const inputV = (frequencyHz: number) => inputForOutputV(steady, { frequencyHz, ...standardTone, into }, wantedV);
		const nearV = inputV(nearHz);
		return nearV === null || reachHz === 0 ? nearV : inputV(bestNearHz(steady, into, nearV, nearHz, reachHz));
	});
	const levels = [sensitivityV, ...inputs, wantedV];
	return inputs.concat(wantedV).map((inputV, k) => {
		const beforeV = levels[k] ?? null;
		return inputV === null || beforeV === null ? null : 20 * Math.log10(inputV / beforeV);
	});
}
