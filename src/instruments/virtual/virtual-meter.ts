import type { LiveMeter, MeterListener } from '../instrument.ts';
import { toneReading } from '../tone-reading.ts';
import type { VirtualSet } from './virtual-set.ts';
import { tapRateHz, tapVirtualSet } from './virtual-tap.ts';

/** Volts at the meter's full scale: more than a small output tube can give. */
const fullScaleV = 4;
/** Rms of a sine that reaches full scale, decibels of one volt. */
const fullScaleDbv = 20 * Math.log10(fullScaleV / Math.SQRT2);

/** Reads a virtual set ten times a second from the sound of its voice coil, as a meter of tones would. */
export function readVirtualSet(set: VirtualSet, listener: MeterListener): LiveMeter {
	const stop = tapVirtualSet(set, (volts) => {
		const { toneHz } = set.placed.generator;
		const samples = volts.map((one) => one / fullScaleV);
		const source = { instrument: 'virtual set', sampleRateHz: tapRateHz, toneHz, fullScaleDbv };
		const { reading, picture } = toneReading(samples, Date.now(), source);
		listener.reading(reading, picture);
	});
	return {
		name: 'virtual set',
		hearsRoom: false,
		tellsGenerator: true,
		close: async () => stop(),
	};
}
