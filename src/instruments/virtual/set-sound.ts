import type { SetSignal } from '#core/receiver/signal.ts';
import type { SetValues } from '#core/receiver/values.ts';
import workletUrl from './set-worklet.ts?worker&url';
import type { VirtualSet } from './virtual-set.ts';

/** What the sound of a virtual set is told: the set where it was changed, and what it is given. */
export interface SetChange {
	readonly values: SetValues | null;
	readonly signals: readonly SetSignal[];
}

/** The sound of a virtual set. */
export interface SetSound {
	/** Loudness in the room, 0 to 1; the set's own volume control is another thing. */
	setLoudness(share: number): void;
	close(): Promise<void>;
}

/** What changes by itself is told this often. */
const motionMs = 100;

/**
 * Lets a virtual set be heard: screws, knobs and generator are followed while they move.
 * Call it from a click: browsers start sound only then.
 */
export async function hearVirtualSet(set: VirtualSet, loudness: number): Promise<SetSound> {
	const context = new AudioContext();
	await context.audioWorklet.addModule(workletUrl);
	const source = new AudioWorkletNode(context, 'set', { numberOfInputs: 0, outputChannelCount: [1] });
	const room = new GainNode(context, { gain: loudness });
	source.connect(room).connect(context.destination);
	const tell = (values: SetValues | null): void =>
		source.port.postMessage({ values, signals: set.signals } satisfies SetChange);
	const stopFollowing = set.onChange(() => tell(set.values));
	tell(set.values);
	const motion = setInterval(() => {
		if (set.isInMotion) tell(null);
	}, motionMs);
	await context.resume();
	return {
		setLoudness: (share) => room.gain.setTargetAtTime(share, context.currentTime, 0.03),
		close: async () => {
			clearInterval(motion);
			stopFollowing();
			await context.close();
		},
	};
}
