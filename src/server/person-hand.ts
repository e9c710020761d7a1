import type { BenchHand } from '#bench/bench-hand.ts';
import type { PanelHand } from '#instruments/scpi/panel-hand.ts';
import { frequencyWords, voltageWords } from '#record/quantity-words.ts';

/** Puts a question with its answers, what is to be minded and the names in it that a person gave, to the person; `null` when the work is left. */
type Ask = (
	words: string,
	answers: readonly string[],
	care?: string,
	typed?: readonly string[],
) => Promise<string | null>;

const there = 'It is there';
const leaveOut = 'Leave it out';
const readAgain = 'Read again';
/** Eighths of a turn, clockwise positive, as they are answered. */
const nudges: Readonly<Record<string, number>> = {
	'Clockwise, 1/8': 1,
	'Counter-clockwise, 1/8': -1,
	'Clockwise, 1/16': 0.5,
	'Counter-clockwise, 1/16': -0.5,
};

/** The hand of the person at the page, asked act by act. */
export function personHand(ask: Ask): BenchHand {
	return {
		setPointer: async (dialHz) =>
			(await ask(`Set the pointer on ${frequencyWords(dialHz, 'US')}.`, [there, leaveOut])) === there,
		setVolume: async (end) =>
			(await ask(`Turn the volume control ${end}${end === 'full up' ? ', the tone control bright' : ''}.`, [
				there,
				leaveOut,
			])) === there,
		async bringOutput(wantedV, readV) {
			for (;;) {
				const shownV = await readV();
				const shows = shownV === null ? 'It shows nothing.' : `It shows ${voltageWords(shownV)}.`;
				const answer = await ask(
					`Turn the volume down until the meter shows ${voltageWords(wantedV)}. ${shows} The signal is strong now.`,
					[readAgain, there, leaveOut],
				);
				if (answer !== readAgain) return answer === there;
			}
		},
		async nudge({ name }) {
			const answer = await ask(
				`Mark ${name}, turn it by an eighth at most, leave it there. What was turned?`,
				[...Object.keys(nudges), 'Left as it is'],
				'The way it turns easily. Insulated tool, one hand; withdraw it before you answer. Never force a screw; never screw a core inward in search of a peak.',
				[name],
			);
			return answer === null ? null : (nudges[answer] ?? null);
		},
	};
}

const halvings = 12;

/** The hand of a virtual set that is served as instruments. */
export function virtualHand(hand: PanelHand): BenchHand {
	return {
		setPointer: (dialHz) => hand.pointer(dialHz),
		setVolume: (end) => hand.volume(end === 'full up' ? 1 : 0),
		async bringOutput(wantedV, readV) {
			let [low, high] = [0, 1];
			for (let halving = 0; halving < halvings; halving++) {
				const middle = (low + high) / 2;
				if (!(await hand.volume(middle))) return false;
				if (((await readV()) ?? 0) < wantedV) low = middle;
				else high = middle;
			}
			return true;
		},
		nudge: async ({ id }) => ((await hand.turn(id, 1 / 8)) ? 1 : null),
	};
}
