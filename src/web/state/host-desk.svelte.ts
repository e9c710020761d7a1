import { HostInstruments } from '#instruments/remote/host-instruments.ts';
import {
	type NamedInstrument,
	type NamedInstruments,
	namedInstruments,
	noInstruments,
} from '#record/named-instrument.ts';
import type { GeneratorSetting, HostPlan, HostState, WorkAct } from '#wire/host-messages.ts';
import { outbox } from './outbox.svelte.ts';
import { ask } from './server.ts';

/** Under which earlier versions kept them in this browser alone. */
const keptAs = 'instruments';

function keptHere(): NamedInstruments | null {
	try {
		return namedInstruments.parse(JSON.parse(localStorage.getItem(keptAs) ?? 'null'));
	} catch {
		return null;
	}
}

/** The host's instruments for all screens: which they are, what they do now, and what is said to them. */
class HostDesk {
	readonly instruments = new HostInstruments(ask);
	/** The instruments that the program drives, as it keeps them for page and terminal. */
	named: NamedInstruments = $state.raw(noInstruments);
	/** Fulfilled when `named` is what the program keeps. */
	readonly known: Promise<void> = this.#learn();
	/** How they stand; `null` until somebody asked. */
	state: HostState | null = $state.raw(null);
	/** The program does not answer while work is under way. */
	isCut = $state(false);
	fault: string | null = $state(null);
	#unfollow: (() => void) | null = null;
	/** Work that ended and whose end was read. */
	#wasRead: string | null = null;

	/** Looks whether work is under way, as after a reload, and follows it. */
	async look(): Promise<void> {
		const answer = await this.instruments.state();
		if (!answer.ok) return;
		this.#stand(answer.value);
		if (this.#isOpen(answer.value)) this.#follow();
	}

	/** Takes how the instruments stand; an end that was read does not come back. */
	#stand(state: HostState): void {
		const isRead = this.#wasRead !== null && this.#wasRead === JSON.stringify(state.work);
		this.state = isRead ? { ...state, work: null } : state;
	}

	/** Whether there is something of the instruments to be seen: work, or an output that may be on. */
	get isAtWork(): boolean {
		return this.state !== null && (this.state.work !== null || this.state.output === 'may be on');
	}

	/** What is said to the person stays until it is read. */
	read(): void {
		if (!this.state) return;
		this.#wasRead = JSON.stringify(this.state.work);
		this.state = { ...this.state, work: null };
	}

	async #learn(): Promise<void> {
		const kept = await ask('/instruments', namedInstruments);
		if (!kept.ok) return;
		this.named = kept.value;
		const here = keptHere();
		if (here)
			for (const which of ['generator', 'meter'] as const)
				if (kept.value[which].place === '') await this.name(which, here[which]);
		localStorage.removeItem(keptAs);
	}

	/** Keeps which instrument is driven. */
	async name(which: keyof NamedInstruments, instrument: NamedInstrument): Promise<void> {
		this.named = { ...this.named, [which]: instrument };
		const kept = await ask(`/instruments/${which}`, namedInstruments, {
			method: 'PUT',
			body: JSON.stringify(instrument),
		});
		this.fault = kept.ok ? null : `Not kept: ${kept.words}.`;
	}

	get isNamed(): boolean {
		return this.named.generator.place !== '' && this.named.meter.place !== '';
	}

	/** Whether the instruments write this run now. */
	writes(run: string): boolean {
		const work = this.state?.work;
		return work?.run === run && work.end === null;
	}

	async begin(run: string, plan: HostPlan): Promise<void> {
		this.fault = null;
		if (!(await outbox.sent(run))) {
			this.fault = 'Not begun: what was read before is not kept yet.';
			return;
		}
		const begun = await this.instruments.begin({ run, ...this.named, plan });
		if (!begun.ok) {
			this.fault = `Not begun: ${begun.words}.`;
			return;
		}
		this.state = begun.value;
		this.#follow();
	}

	/** What the bench has set the generator to; `null` while it is off. */
	get set(): GeneratorSetting | null {
		return this.state?.set ?? null;
	}

	/** Sets the generator and switches it on; gives a question that has to be agreed to first, or `null`. */
	async setGenerator(setting: GeneratorSetting, isAgreed = false): Promise<string | null> {
		const done = await this.instruments.set({ generator: this.named.generator, setting, isAgreed });
		this.fault = done.ok ? null : `Not set: ${done.words}.`;
		await this.look();
		return done.ok ? done.value : null;
	}

	/** Switches off what the bench has switched on. */
	async generatorOff(): Promise<void> {
		if (this.state && this.state.output !== 'off' && (this.state.work === null || this.state.work.end))
			await this.act({ act: 'off' });
	}

	async act(act: WorkAct): Promise<void> {
		const answer = await this.instruments.act(act);
		this.fault = answer.ok ? null : answer.words;
		if (answer.ok) this.#stand(answer.value);
	}

	#isOpen(state: HostState): boolean {
		return (state.work !== null && state.work.end === null) || state.output !== 'off';
	}

	/** A tab follows only while there is work: a browser has few connections for one place. */
	#follow(): void {
		this.#unfollow?.();
		this.#unfollow = this.instruments.follow((state) => {
			this.isCut = state === null;
			if (state === null) return;
			const own = this.state?.work ?? null;
			// A program that was started anew knows nothing of the work; how it stood stays to be read.
			if (state.work === null && own !== null)
				this.state = {
					...state,
					work: {
						...own,
						stands: 'ended',
						question: null,
						end: own.end ?? { isDone: false, words: 'Left, since the program was stopped. What was read is kept.' },
					},
				};
			else this.#stand(state);
			if (!this.state || !this.#isOpen(this.state)) {
				this.#unfollow?.();
				this.#unfollow = null;
			}
		});
	}
}

export const hostDesk = new HostDesk();
