import { HostInstruments } from '#instruments/remote/host-instruments.ts';
import type { HostPlan, HostState, NamedInstrument, WorkAct } from '#wire/host-messages.ts';
import { outbox } from './outbox.svelte.ts';
import { ask } from './server.ts';

/** The instruments that this browser drives; `null` where none was named yet. */
export interface NamedInstruments {
	readonly generator: NamedInstrument;
	readonly meter: NamedInstrument;
}

const keptAs = 'instruments';
const none: NamedInstrument = { place: '', description: null };

function kept(): NamedInstruments {
	try {
		const found = JSON.parse(localStorage.getItem(keptAs) ?? 'null') as NamedInstruments | null;
		return found?.generator && found.meter ? found : { generator: none, meter: none };
	} catch {
		return { generator: none, meter: none };
	}
}

/** The host's instruments for all screens: which they are, what they do now, and what is said to them. */
class HostDesk {
	readonly instruments = new HostInstruments(ask);
	named: NamedInstruments = $state.raw(kept());
	/** How they stand; `null` until somebody asked. */
	state: HostState | null = $state.raw(null);
	/** The program does not answer while work is under way. */
	isCut = $state(false);
	fault: string | null = $state(null);
	#unfollow: (() => void) | null = null;

	/** Looks whether work is under way, as after a reload, and follows it. */
	async look(): Promise<void> {
		const answer = await this.instruments.state();
		if (!answer.ok) return;
		this.state = answer.value;
		if (this.#isOpen(answer.value)) this.#follow();
	}

	/** What is said to the person stays until it is read. */
	read(): void {
		this.state = null;
	}

	name(which: keyof NamedInstruments, instrument: NamedInstrument): void {
		this.named = { ...this.named, [which]: instrument };
		localStorage.setItem(keptAs, JSON.stringify(this.named));
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

	async act(act: WorkAct): Promise<void> {
		const answer = await this.instruments.act(act);
		this.fault = answer.ok ? null : answer.words;
		if (answer.ok) this.state = answer.value;
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
			// A program that was started anew knows nothing of the work; how it stood stays to be read.
			if (state.work !== null || this.state?.work?.end) this.state = state.work === null ? this.state : state;
			else if (this.state?.work)
				this.state = {
					...state,
					work: {
						...this.state.work,
						stands: 'ended',
						question: null,
						end: { isDone: false, words: 'Left, since the program was stopped. What was read is kept.' },
					},
				};
			if (!this.state || !this.#isOpen(this.state)) {
				this.#unfollow?.();
				this.#unfollow = null;
			}
		});
	}
}

export const hostDesk = new HostDesk();
