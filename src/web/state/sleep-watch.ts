/** How often the clock is looked at, and from what leap on the computer slept: a tab in the background is let look once a minute. Chosen. */
const lookMs = 5000;
const sleptMs = 5 * 60_000;

/**
 * Tells when the computer, or this tab, has slept: the clock went on and nothing else did.
 * @param woke with the moments at which it fell asleep and woke, milliseconds since 1970
 * @returns what ends the watch
 */
export function watchForSleep(woke: (fromMs: number, untilMs: number) => void): () => void {
	let lookedMs = Date.now();
	const watch = setInterval(() => {
		const fromMs = lookedMs;
		lookedMs = Date.now();
		if (lookedMs - fromMs > sleptMs) woke(fromMs, lookedMs);
	}, lookMs);
	return () => clearInterval(watch);
}
