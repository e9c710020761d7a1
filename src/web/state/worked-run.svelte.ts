import type { Gate, GateVerdict } from '#advice/caution.ts';
import type { Bench } from '#bench/bench.ts';
import type { RunState } from '#bench/run-state.ts';

/** A run that a screen works: where it stands, and why the last happening was not kept. */
export class WorkedRun {
	stands: RunState = $state.raw() as RunState;
	fault: string | null = $state(null);
	readonly #bench: Bench;

	constructor(bench: Bench) {
		this.#bench = bench;
		this.stands = bench.state;
	}

	/** Does something at the bench; `false`, with the reason in `fault`, when it was not kept. */
	readonly act = async (doing: () => Promise<unknown>): Promise<boolean> => {
		this.fault = null;
		try {
			await doing();
			return true;
		} catch (error) {
			this.fault = `Not kept: ${(error as Error).message}`;
			return false;
		} finally {
			this.stands = this.#bench.state;
		}
	};

	/** Opens a gate when its answers allow it; a gate says by itself why it stays closed. */
	readonly pass = (gate: Gate, answers: Readonly<Record<string, string>>): Promise<GateVerdict> =>
		this.#bench.passGate(gate, answers).finally(() => {
			this.stands = this.#bench.state;
		});
}
