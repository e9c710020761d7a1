import type { FlowPhase } from './adjuster-flow.ts';

/** What to do in a phase and what the key does there. */
export interface PhaseWords {
	readonly instruction: string;
	/** On the key. */
	readonly key: string;
}

interface PhaseSentences {
	/** While readings are awaited. */
	readonly waiting: string;
	/** When the phase has what it needs. */
	readonly ready: string;
	/** For a meter that a person reads. */
	readonly typed: string;
	readonly key: string;
}

function sentences(phase: Exclude<FlowPhase, 'turn' | 'count'>, name: string): PhaseSentences {
	switch (phase) {
		case 'reference before':
			return {
				waiting: `${name}: hands off until the level stands still.`,
				ready: `Settled. Press the big key, then turn ${name} slowly.`,
				typed: `${name}: hands off. Type what the meter reads.`,
				key: `Turn ${name}`,
			};
		case 'reference after':
			return {
				waiting: 'Withdraw the tool. The reading is settling.',
				ready: 'Settled. Press the big key.',
				typed: 'Withdraw the tool. Type what the meter reads now.',
				key: 'Count the turn',
			};
		case 'hands off':
			return {
				waiting: 'Hands off for five seconds.',
				ready: `Enough. Rest the tool on ${name}, turn nothing, and press the big key.`,
				typed: 'Hands off.',
				key: 'The tool rests on it',
			};
		case 'hands on':
			return {
				waiting: `Keep the tool on ${name} for five seconds and turn nothing.`,
				ready: 'Enough. Press the big key.',
				typed: `Rest the tool on ${name} and turn nothing.`,
				key: 'Go on',
			};
		case 'before the step':
			return {
				waiting: 'Hands off. The level before the step is being read.',
				ready: 'Settled. Press the big key, then make the generator 6 dB weaker.',
				typed: 'Type what the meter reads before the step.',
				key: 'Read',
			};
		case 'after the step':
			return {
				waiting: 'Make the generator 6 dB weaker. The reading is settling.',
				ready: 'When the generator is 6 dB weaker and the reading stands, press the big key.',
				typed: 'Make the generator 6 dB weaker and type what the meter reads.',
				key: 'Read after the step',
			};
	}
}

/** The words of a phase; `null` while the coach has the word, or the turn is counted. */
export function phaseWords(phase: FlowPhase, isReady: boolean, isTyped: boolean, name: string): PhaseWords | null {
	if (phase === 'turn' || phase === 'count') return null;
	const { waiting, ready, typed, key } = sentences(phase, name);
	return { instruction: isTyped ? typed : isReady ? ready : waiting, key };
}
