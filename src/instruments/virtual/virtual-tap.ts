import { SetStream } from '#core/receiver/set-stream.ts';
import type { VirtualSet } from './virtual-set.ts';

/** Of a tapped voice coil. */
export const tapRateHz = 48e3;
/** Sound that runs before the first frame, so that the AVC line has come to rest. */
const settleS = 0.6;
const frameMs = 100;

type Take = (volts: Float64Array) => void;

/** Who listens to a set: one stream serves them all. */
const listening = new WeakMap<VirtualSet, Set<Take>>();

function run(set: VirtualSet, takers: ReadonlySet<Take>): void {
	const stream = new SetStream(set.values, set.signals, tapRateHz, set.seed);
	stream.fill(new Float64Array(settleS * tapRateHz));
	const stopFollowing = set.onChange(() => stream.change(set.values, set.signals));
	const timer = setInterval(() => {
		if (takers.size === 0) {
			clearInterval(timer);
			stopFollowing();
			listening.delete(set);
			return;
		}
		if (set.isInMotion) stream.feed(set.signals);
		const volts = new Float64Array((tapRateHz * frameMs) / 1e3);
		stream.fill(volts);
		for (const take of takers) take(volts);
	}, frameMs);
}

/** Hands on a virtual set's voice coil, a tenth of a second at a time in volts, as it is worked, until the answer is called. */
export function tapVirtualSet(set: VirtualSet, take: Take): () => void {
	const kept = listening.get(set);
	const takers = kept ?? new Set<Take>();
	takers.add(take);
	if (!kept) {
		listening.set(set, takers);
		run(set, takers);
	}
	return () => void takers.delete(take);
}
