import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Runs a netlist in a folder of its own; what `read` makes of the output file and of what was said is given back. */
function run<Result>(netlist: string, read: (outPath: string, said: string) => Result): Result {
	const folder = mkdtempSync(join(tmpdir(), 'ngspice-'));
	try {
		const out = join(folder, 'out.txt');
		const file = join(folder, 'circuit.cir');
		// Without `quit` a netlist that prints nothing counts as failed.
		writeFileSync(file, netlist.replaceAll('OUT', out).replace('.endc', 'quit 0\n.endc'));
		const said = execFileSync('ngspice', ['-b', file], { stdio: ['ignore', 'pipe', 'pipe'], cwd: folder });
		return read(out, said.toString());
	} finally {
		rmSync(folder, { recursive: true, force: true });
	}
}

/**
 * Runs a circuit through ngspice, an independent simulator, and gives back the columns that its control block wrote.
 * The netlist names its output file `OUT` and ends its control block with `.endc`; rows are numbers apart by blanks.
 */
export function ngspice(netlist: string): readonly (readonly number[])[] {
	return run(netlist, (out) =>
		readFileSync(out, 'utf8')
			.split('\n')
			.map((line) => line.trim().split(/\s+/).map(Number))
			.filter((row) => row.length > 1 && row.every(Number.isFinite)),
	);
}

/** Runs a circuit through ngspice and gives back what it said. */
export function ngspiceSaid(netlist: string): string {
	return run(netlist, (_, said) => said);
}
