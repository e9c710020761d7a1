/** A run that this tab may write. */
export interface RunHold {
	release(): void;
}

/** What the tab does when another takes the run over; the run goes over when it is done. */
type HandOver = () => Promise<void>;

/** How long another tab is given to hand a run over; one that the browser has put to sleep cannot answer. */
const patienceMs = 3000;
/** The run that this tab held last, so that another screen of the set can offer to go on with it. */
export const lastHeld: { run: string | null } = { run: null };

const lockName = (run: string): string => `peakwright run ${run}`;
const channelName = 'peakwright runs';

/** Keeps the lock until it is released here or asked for by another tab. */
function holding(run: string, handOver: HandOver, begun: (hold: RunHold) => void): Promise<void> {
	return new Promise((release) => {
		const channel = new BroadcastChannel(channelName);
		const end = (): void => {
			channel.close();
			release();
		};
		channel.onmessage = ({ data }: MessageEvent<unknown>) => {
			if (data === run) void handOver().finally(end);
		};
		begun({ release: end });
	});
}

function requested(run: string, options: LockOptions, handOver: HandOver): Promise<RunHold | null> {
	return new Promise((resolve, reject) => {
		let isHeld = false;
		navigator.locks
			.request(lockName(run), options, (lock) => {
				if (lock === null) return resolve(null);
				isHeld = true;
				lastHeld.run = run;
				return holding(run, handOver, resolve);
			})
			// Taken away without an answer: this tab slept.
			.catch((error) => (isHeld ? void handOver() : reject(error)));
	});
}

/** Takes a run for this tab alone; `null` when another tab of this browser works it. */
export function holdRun(run: string, handOver: HandOver): Promise<RunHold | null> {
	return requested(run, { ifAvailable: true }, handOver);
}

/** Takes a run over from the tab that works it, when that tab has kept what it had under way. */
export async function takeRunOver(run: string, handOver: HandOver): Promise<RunHold | null> {
	const channel = new BroadcastChannel(channelName);
	channel.postMessage(run);
	channel.close();
	try {
		return await requested(run, { signal: AbortSignal.timeout(patienceMs) }, handOver);
	} catch {
		return requested(run, { steal: true }, handOver);
	}
}
