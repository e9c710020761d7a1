import type { Turn } from '#bench/sweep-hand.ts';
import type { Done, Generator } from '#instruments/instrument.ts';
import type { HostState, HostWork } from '#wire/host-messages.ts';

type Question = NonNullable<HostWork['question']>;

/** What a generator that is told to stop says to everything but to be switched off. */
const leaving: Done = { kind: 'failed', words: 'the work was left' };

/** The hold on work under way: pause, go on, leave it, and what is put to the person. Whatever waits here ends when the work is left. */
export class WorkControl {
	readonly #generator: Generator;
	readonly #changed: () => void;
	readonly #nowMs: () => number;
	readonly #begunMs: number;
	/** Time in which the work stood still. */
	#stillMs = 0;
	#isLeft = false;
	#isPaused = false;
	#goOn: (() => void) | null = null;
	#asked: { readonly question: Question; readonly answered: (answer: string | null) => void } | null = null;
	#count = 0;
	output: HostState['output'] = 'off';

	/** @param changed told whenever what the person sees changes */
	constructor(generator: Generator, nowMs: () => number, changed: () => void) {
		this.#generator = generator;
		this.#nowMs = nowMs;
		this.#changed = changed;
		this.#begunMs = nowMs();
	}

	get isLeft(): boolean {
		return this.#isLeft;
	}
	get stands(): 'running' | 'pausing' | 'paused' | 'asking' {
		if (this.#asked) return 'asking';
		if (this.#goOn) return 'paused';
		return this.#isPaused ? 'pausing' : 'running';
	}
	get question(): Question | null {
		return this.#asked?.question ?? null;
	}
	/** How long the work itself has taken so far. */
	get workedMs(): number {
		return this.#nowMs() - this.#begunMs - this.#stillMs;
	}

	/** The generator as the work has it: once the work is left nothing but "off" gets through. */
	readonly generator = ((): Generator => {
		const unless = (act: () => Promise<Done>): Promise<Done> => (this.#isLeft ? Promise.resolve(leaving) : act());
		const own = (): Generator => this.#generator;
		return {
			get name() {
				return own().name;
			},
			setFrequency: (frequencyHz) => unless(() => own().setFrequency(frequencyHz)),
			setLevel: (levelV) => unless(() => own().setLevel(levelV)),
			raiseLevel: (levelV) => unless(() => own().raiseLevel(levelV)),
			modulate: (toneHz, depth) => unless(() => own().modulate(toneHz, depth)),
			switchOn: () => unless(() => this.#switched('on')),
			switchOff: () => this.#switched('off'),
		};
	})();

	async #switched(to: 'on' | 'off'): Promise<Done> {
		if (to === 'on') this.#tell('may be on');
		const done = await (to === 'on' ? this.#generator.switchOn() : this.#generator.switchOff());
		if (done.kind === 'done') this.#tell(to);
		else if (this.output !== 'off') this.#tell('may be on');
		return done;
	}

	#tell(output: HostState['output']): void {
		this.output = output;
		this.#changed();
	}

	/** The person has switched the generator off by hand. */
	isOff(): void {
		this.#tell('off');
	}

	/** Awaited by the work before each reading. */
	readonly turn = async (): Promise<Turn> => {
		if (this.#isLeft) return 'stopped';
		if (!this.#isPaused) return 'on';
		await this.generator.switchOff();
		await this.#still<void>((done) => {
			if (this.#isLeft || !this.#isPaused) done();
			else this.#goOn = done;
		});
		this.#goOn = null;
		return this.#isLeft ? 'stopped' : 'resumed';
	};

	/** Waits for the person; the time does not count as work. */
	async #still<Value>(begin: (done: (value: Value) => void) => void): Promise<Value> {
		const fromMs = this.#nowMs();
		const waiting = new Promise<Value>(begin);
		this.#changed();
		const value = await waiting;
		this.#stillMs += this.#nowMs() - fromMs;
		this.#changed();
		return value;
	}

	/**
	 * Puts a question to the person; `null` when the work is left meanwhile.
	 * @param care what is to be minded while it is done
	 * @param typed names in its words that a person gave
	 */
	readonly ask = async (
		words: string,
		answers: readonly string[],
		care: string | null = null,
		typed: readonly string[] = [],
	): Promise<string | null> => {
		if (this.#isLeft) return null;
		const question = { id: ++this.#count, words, care, answers: [...answers], typed: [...typed] };
		return this.#still<string | null>((answered) => {
			this.#asked = { question, answered };
		});
	};

	/** Takes an answer; `false` when it is not one of the question's. */
	answer(question: number, answer: string): boolean {
		const asked = this.#asked;
		if (asked?.question.id !== question || !asked.question.answers.includes(answer)) return false;
		this.#asked = null;
		asked.answered(answer);
		return true;
	}

	pause(): void {
		this.#isPaused = true;
		this.#changed();
	}

	goOn(): void {
		this.#isPaused = false;
		this.#goOn?.();
		this.#changed();
	}

	/** Leaves the work at once: the generator is told to be off now, and the work ends at its next reading. */
	leave(): void {
		if (this.#isLeft) return;
		this.#isLeft = true;
		void this.generator.switchOff();
		const asked = this.#asked;
		this.#asked = null;
		asked?.answered(null);
		this.#goOn?.();
		this.#changed();
	}
}
