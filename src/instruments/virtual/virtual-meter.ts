import type { LiveMeter, MeterListener } from '../instrument.ts';
import type { VirtualSet } from './virtual-set.ts';

/** Reads a virtual set ten times a second. */
export function readVirtualSet(set: VirtualSet, listener: MeterListener): LiveMeter {
	const timer = setInterval(() => listener.reading(set.read(Date.now()), null), 100);
	return {
		name: 'virtual set',
		hearsRoom: false,
		tellsGenerator: true,
		close: async () => clearInterval(timer),
	};
}
