import { SetStream } from '#core/receiver/set-stream.ts';
import type { LiveMeter, MeterListener } from '../instrument.ts';
import { toneReading } from '../tone-reading.ts';
import type { VirtualSet } from './virtual-set.ts';

const sampleRateHz = 48e3;
/** Volts at the meter's full scale: more than a small output tube can give. */
const fullScaleV = 4;
/** Rms of a sine that reaches full scale, decibels of one volt. */
const fullScaleDbv = 20 * Math.log10(fullScaleV / Math.SQRT2);
/** Sound that runs before the first reading, so that the AVC line has come to rest. */
const settleS = 0.6;

/** Reads a virtual set ten times a second from the sound of its voice coil, as a meter of tones would. */
export function readVirtualSet(set: VirtualSet, listener: MeterListener): LiveMeter {
	const { values, signal } = set.now;
	const stream = new SetStream(values, [signal], sampleRateHz, set.seed);
	stream.fill(new Float64Array(settleS * sampleRateHz));
	const frame = new Float64Array(sampleRateHz / 10);
	const stopFollowing = set.onChange(() => {
		const now = set.now;
		stream.change(now.values, [now.signal]);
	});
	const timer = setInterval(() => {
		stream.fill(frame);
		const { toneHz } = set.placed.generator;
		const samples = frame.map((volts) => volts / fullScaleV);
		const source = { instrument: 'virtual set', sampleRateHz, toneHz, fullScaleDbv };
		const { reading, picture } = toneReading(samples, Date.now(), source);
		listener.reading(reading, picture);
	}, 100);
	return {
		name: 'virtual set',
		hearsRoom: false,
		tellsGenerator: true,
		close: async () => {
			clearInterval(timer);
			stopFollowing();
		},
	};
}
