import { setTimeout as wait } from 'node:timers/promises';
import { Bench, type BenchGround } from '#bench/bench.ts';
import type { WorkGround } from '#bench/work-ground.ts';
import { type DrivenGear, openGear } from '#instruments/scpi/driven-gear.ts';
import { PanelHand } from '#instruments/scpi/panel-hand.ts';
import type { NamedInstrument } from '#record/named-instrument.ts';
import type { Parsed } from '#record/parsed.ts';
import { faultWords } from '#storage/fault-words.ts';
import type { HostState, HostWork, SettingQuestion, WorkAct, WorkQuestion } from '#wire/host-messages.ts';
import { HostGenerator, type OutputMark } from './host-generator.ts';
import { endWords, type HostJob } from './host-job.ts';
import { HostMeter } from './host-meter.ts';
import { hostWork, type HostWork as PlannedWork } from './host-work.ts';
import { namedPlace } from './named-place.ts';
import { personHand, virtualHand } from './person-hand.ts';
import { WorkControl } from './work-control.ts';

/** What a host's bench needs from outside. */
export interface HostGround {
	readonly journal: BenchGround['journal'];
	readonly nowMs: () => number;
	readonly newId: () => string;
	/** Waits that belong to the work. */
	readonly waitMs: (ms: number) => Promise<void>;
	/** How long the page may be away before the work is left. */
	readonly awayMs: number;
	readonly mark: OutputMark;
}

/** How long the page may be away: a reload is back at once, a page that was closed never. */
export const usualAwayMs = 30_000;
/** A generator that could not be switched off is told again so often. */
const againMs = 2000;
/** How long a generator that cannot be reached may hold up the end of the program. */
const longestStopMs = 10_000;
/** Less of the work than this tells nothing of the rest. */
const tellingShare = 0.03;

/**
 * The bench of the host's instruments: does one piece of work at a time by itself, on the run that it alone writes meanwhile, and keeps every reading first.
 * The generator's output is off when the work ends, when nobody has been at the page for half a minute, and when the server stops.
 */
export class HostBench {
	readonly #ground: HostGround;
	/** Read for the page while no work is under way. */
	readonly meter = new HostMeter();
	readonly #mark: OutputMark;
	readonly #generator: HostGenerator;
	readonly #watchers = new Set<() => void>();
	#job: HostJob | null = null;
	/** The work under way with all its endings. */
	#under: Promise<void> = Promise.resolve();
	#away: NodeJS.Timeout | null = null;
	/** Work is being prepared: nothing else is begun meanwhile. */
	#isBeginning = false;
	#isSetting = false;
	#isStopping = false;

	constructor(ground: HostGround) {
		this.#ground = ground;
		const { mark } = ground;
		this.#mark = {
			markOn: (generator) => mark.markOn(generator),
			// Where that cannot be kept, the next program tells the generator once more to be off, which harms nothing.
			seenOff: () => mark.seenOff().catch(() => undefined),
		};
		this.#generator = new HostGenerator(() => this.#changed(), this.#mark);
	}

	get state(): HostState {
		const job = this.#job;
		const { output: setOutput, setting } = this.#generator;
		if (!job) return { output: setOutput, work: null, set: setting };
		const { control } = job;
		const leftS = job.end || job.done < tellingShare ? null : ((control.workedMs / job.done) * (1 - job.done)) / 1e3;
		return {
			output: job.end && setOutput !== 'off' ? setOutput : control.output,
			set: setting,
			work: {
				run: job.run,
				kind: job.kind,
				stands: job.end ? 'ended' : control.stands,
				done: job.done,
				leftS: leftS === null ? null : Math.round(leftS),
				question: control.question,
				reading: job.reading,
				end: job.end,
			},
		};
	}

	/** Whether this bench is the writer of a run now. */
	writes(run: string): boolean {
		return this.#job !== null && this.#job.run === run && this.#job.end === null;
	}

	/** The program is about to end: whoever looks on need not wait. */
	get isStopping(): boolean {
		return this.#isStopping;
	}

	get isBusy(): boolean {
		return this.#isBeginning || (this.#job !== null && this.#job.end === null);
	}

	/** A page that looks on; gives what to call when it goes away. */
	attach(changed: () => void): () => void {
		this.#watchers.add(changed);
		if (this.#away) clearTimeout(this.#away);
		this.#away = null;
		return () => {
			this.#watchers.delete(changed);
			this.#watchAway();
		};
	}

	/** With nobody at the page the work may go on for a while, and no longer. */
	#watchAway(): void {
		if (this.#watchers.size > 0 || this.#away || (!this.isBusy && this.#generator.output === 'off')) return;
		this.#away = setTimeout(() => {
			this.#away = null;
			if (this.#watchers.size > 0) return;
			this.#leave(`nobody was at the page for ${this.#ground.awayMs / 1e3} s`);
			void this.#generator.off(() => this.#isStopping);
		}, this.#ground.awayMs);
	}

	#changed = (): void => {
		for (const told of this.#watchers) told();
	};

	/** Sees a generator off that a program before this one left on: it is told until it answers. */
	recover(generator: NamedInstrument): void {
		void this.#generator.seeOff(generator, () => this.#isStopping);
	}

	/** Sets the generator for a step of the bench; gives what is to be asked first, or `null` when it is set. Somebody has to be at the page. */
	async set({ generator, setting, isAgreed }: SettingQuestion): Promise<Parsed<string | null>> {
		if (this.isBusy || this.#isStopping) return { ok: false, words: 'the instruments are at work' };
		this.#isSetting = true;
		try {
			const done = await this.#generator.set(generator, setting, isAgreed);
			this.#watchAway();
			if (!done.ok) return done;
			return { ok: true, value: done.value.kind === 'asks' ? done.value.words : null };
		} finally {
			this.#isSetting = false;
		}
	}

	/** Begins work on a run; fulfilled when it is under way, or with why it cannot be begun. */
	async begin(question: WorkQuestion): Promise<Parsed<HostState>> {
		if (this.isBusy || this.#isStopping) return { ok: false, words: 'the instruments are at work already' };
		if (this.#isSetting) return { ok: false, words: 'the generator is being set for the bench: try again when it is' };
		this.#isBeginning = true;
		try {
			return await this.#begun(question);
		} finally {
			this.#isBeginning = false;
		}
	}

	async #begun(question: WorkQuestion): Promise<Parsed<HostState>> {
		const [generator, meter] = [namedPlace(question.generator), namedPlace(question.meter)];
		if (!generator.ok) return generator;
		if (!meter.ok) return meter;
		if (this.#generator.output !== 'off')
			return { ok: false, words: 'the generator is on for the bench: switch its output off first' };
		const { journal, nowMs, newId } = this.#ground;
		const bench = await Bench.beside({ run: question.run, journal, nowMs, newId });
		const planned = hostWork(question.plan, bench);
		if (!planned.ok) return planned;
		const gear = await openGear(generator.value, meter.value, nowMs);
		if (!gear.ok) return gear;
		try {
			await this.#mark.markOn(question.generator);
		} catch (error) {
			for (const session of gear.value.sessions) session.close();
			throw error;
		}
		const control = new WorkControl(gear.value.generator, nowMs, this.#changed);
		const job: HostJob = {
			run: question.run,
			kind: question.plan.kind,
			control,
			done: 0,
			reading: null,
			end: null,
			why: null,
		};
		this.#job = job;
		this.#under = this.#see(job, gear.value, bench, planned.value);
		this.#watchAway();
		this.#changed();
		return { ok: true, value: this.state };
	}

	/** Does what the person says; `false` when there is nothing to be done so. */
	act(act: WorkAct): boolean {
		const job = this.#job;
		if (act.act === 'is off') {
			job?.control.isOff();
			this.#generator.isOff();
			void this.#mark.seenOff();
			return true;
		}
		if (act.act === 'off') {
			void this.#generator.off(() => this.#isStopping);
			return true;
		}
		if (!job || job.end) return false;
		if (act.act === 'answer') return job.control.answer(act.question, act.answer);
		if (act.act === 'pause') job.control.pause();
		if (act.act === 'go on') job.control.goOn();
		if (act.act === 'abort') this.#leave(null);
		return true;
	}

	/** Leaves what is under way and sees the output off, as far as the generator can be reached in time; gives how it stands then. */
	async stop(): Promise<HostState['output']> {
		this.#isStopping = true;
		this.#leave('the program was stopped');
		const off = this.#generator.off(() => true);
		await Promise.race([Promise.all([this.#under, off]), wait(longestStopMs, undefined, { ref: false })]);
		if (this.#away) clearTimeout(this.#away);
		this.meter.close();
		this.#changed();
		return this.state.output;
	}

	#leave(why: string | null): void {
		const job = this.#job;
		if (!job || job.end) return;
		job.why ??= why;
		job.control.leave();
	}

	/** The work from its begin to the closed connection; nothing here rejects. */
	async #see(job: HostJob, gear: DrivenGear, bench: Bench, planned: PlannedWork): Promise<void> {
		const { control } = job;
		let end: HostWork['end'];
		try {
			const came = await planned.work(await this.#workGround(job, gear, bench, planned), bench);
			if (came.kind === 'done') end = { isDone: true, words: `Done: ${came.words}` };
			else if (control.isLeft) end = { isDone: false, words: endWords({ kind: 'stopped' }) };
			else end = { isDone: false, words: endWords(came) };
		} catch (error) {
			end = { isDone: false, words: `Ended: it could not be kept: ${faultWords(error)}.` };
		}
		if (job.why !== null) end = { isDone: false, words: `Left, since ${job.why}. What was read is kept.` };
		await this.#switchedOff(control);
		if (control.output === 'off') await this.#mark.seenOff();
		for (const session of gear.sessions) session.close();
		job.end = end;
		this.#changed();
	}

	/** Tells the generator until it is off, the person has switched it off by hand, or the program stops. */
	async #switchedOff(control: WorkControl): Promise<void> {
		while (control.output !== 'off') {
			const done = await control.generator.switchOff();
			if (done.kind === 'done' || this.#isStopping) return;
			await wait(againMs);
		}
	}

	async #workGround(job: HostJob, gear: DrivenGear, bench: Bench, { lead }: PlannedWork): Promise<WorkGround> {
		const { control } = job;
		const [session] = gear.sessions;
		const panel = gear.isVirtual && session ? new PanelHand((message) => session.tell([message])) : null;
		if (panel) await panel.lead(lead);
		return {
			generator: control.generator,
			meter: gear.meter,
			hand: panel ? virtualHand(panel) : personHand(control.ask),
			waitMs: this.#ground.waitMs,
			turn: control.turn,
			agrees: async (words) => (await control.ask(words, ['Yes, go on', 'No'])) === 'Yes, go on',
			keep: async (swept) => {
				await bench.keepSweptReading(swept);
				const { frequencyHz, levelV, reading } = swept;
				job.reading = { frequencyHz, levelV, levelDb: reading.levelDb?.value ?? null };
				this.#changed();
			},
			progress: (done, of) => {
				job.done = Math.min(1, done / of);
				this.#changed();
			},
		};
	}
}
