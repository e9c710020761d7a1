import type * as z from 'zod/mini';
import type { NamedInstrument } from '#record/named-instrument.ts';
import type { Parsed } from '#record/parsed.ts';
import type { LevelReading } from '#record/reading.ts';
import {
	type HostState,
	hostState,
	readingAnswer,
	type SettingQuestion,
	settingAnswer,
	type TrialAnswer,
	type TrialQuestion,
	trialAnswer,
	type WorkAct,
	type WorkQuestion,
} from '#wire/host-messages.ts';

/** Asks the program; an answer that is not of the schema is a fault. */
export type AskProgram = <Answer>(
	path: string,
	schema: z.ZodMiniType<Answer>,
	request?: RequestInit,
) => Promise<Parsed<Answer>>;

const posted = (question: unknown): RequestInit => ({ method: 'POST', body: JSON.stringify(question) });

/** The host's instruments seen from the page: work that the program does by itself, and descriptions to be tried. */
export class HostInstruments {
	readonly #ask: AskProgram;

	constructor(ask: AskProgram) {
		this.#ask = ask;
	}

	state(): Promise<Parsed<HostState>> {
		return this.#ask('/host', hostState);
	}

	/**
	 * Follows how the instruments stand. As long as somebody follows, the program takes the person for present.
	 * @param told `null` while the program does not answer
	 * @returns what ends it
	 */
	follow(told: (state: HostState | null) => void): () => void {
		const events = new EventSource('/api/host/events');
		events.addEventListener('state', ({ data }: MessageEvent<string>) => {
			const parsed = hostState.safeParse(JSON.parse(data));
			told(parsed.success ? parsed.data : null);
		});
		// The browser asks again by itself.
		events.onerror = () => told(null);
		return () => events.close();
	}

	begin(question: WorkQuestion): Promise<Parsed<HostState>> {
		return this.#ask('/host/work', hostState, posted(question));
	}

	act(act: WorkAct): Promise<Parsed<HostState>> {
		return this.#ask('/host/act', hostState, posted(act));
	}

	/** One reading of a meter. */
	async read(meter: NamedInstrument): Promise<Parsed<LevelReading>> {
		const answer = await this.#ask('/host/reading', readingAnswer, posted({ meter }));
		return answer.ok ? { ok: true, value: answer.value.reading } : answer;
	}

	/** Sets the generator for a step and switches it on; gives what is asked first, or `null` when it was set. */
	async set(question: SettingQuestion): Promise<Parsed<string | null>> {
		const answer = await this.#ask('/host/set', settingAnswer, posted(question));
		return answer.ok ? { ok: true, value: answer.value.asks } : answer;
	}

	/** Who is there; with a line, what came of it. */
	attempt(question: TrialQuestion): Promise<Parsed<TrialAnswer>> {
		return this.#ask('/host/trial', trialAnswer, posted(question));
	}
}
