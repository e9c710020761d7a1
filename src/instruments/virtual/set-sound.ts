import workletUrl from './set-worklet.ts?worker&url';
import type { VirtualSet } from './virtual-set.ts';

/** The sound of a virtual set. */
export interface SetSound {
	/** Loudness in the room, 0 to 1; the set's own volume control is another thing. */
	setLoudness(share: number): void;
	close(): Promise<void>;
}

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
	const follow = (): void => source.port.postMessage(set.now);
	const stopFollowing = set.onChange(follow);
	follow();
	await context.resume();
	return {
		setLoudness: (share) => room.gain.setTargetAtTime(share, context.currentTime, 0.03),
		close: async () => {
			stopFollowing();
			await context.close();
		},
	};
}
