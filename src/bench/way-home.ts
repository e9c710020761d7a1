import type { RunState } from './run-state.ts';

/** How one adjuster gets back to where it was found. */
export interface WayHome {
	readonly adjuster: string;
	/** Net turn so far in eighths, clockwise positive; `null` when a turn was not counted. */
	readonly eighths: number | null;
	readonly words: string;
}

/** Turns in words: "three eighths", "1 and 1/8 turns". */
function turnsWords(eighths: number): string {
	const whole = Math.floor(eighths / 8);
	const rest = eighths % 8;
	const part = rest === 0 ? '' : `${rest}/8`;
	if (whole === 0) return `${part} turn`;
	return part === '' ? `${whole} ${whole === 1 ? 'turn' : 'turns'}` : `${whole} and ${part} turns`;
}

/** What was turned in a run and how to undo it, in the order of the first touch. */
export function wayHome({ turns }: RunState): readonly WayHome[] {
	const ids = [...new Set(turns.map(({ adjuster }) => adjuster))];
	return ids.map((adjuster) => {
		const own = turns.filter((turn) => turn.adjuster === adjuster);
		if (own.some(({ eighths }) => eighths === null)) {
			return { adjuster, eighths: null, words: 'A turn was not counted: go by the pencil mark.' };
		}
		const net = own.reduce((sum, { eighths }) => sum + (eighths ?? 0), 0);
		const words =
			net === 0
				? 'It stands where it was found.'
				: `Back: ${turnsWords(Math.abs(net))} ${net > 0 ? 'counter-clockwise' : 'clockwise'}.`;
		return { adjuster, eighths: net, words };
	});
}
