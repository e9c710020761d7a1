/**
 * npm run fuzz [-- PARSER ... --minutes 10 --seed N]: tries each reader of what comes from outside with inputs made from good ones.
 * What breaks a reader is made as small as it goes, kept in test/corpus/PARSER and tried again by every test run.
 */
import { createHash } from 'node:crypto';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import fc from 'fast-check';
import { inputs } from './fuzz/edits.ts';
import type { FuzzedParser } from './fuzz/parser.ts';
import { corpusFolder, keptInputs, parsers } from './fuzz/parsers.ts';

const batch = 500;
/** Most inputs that are changed further; of those with a new outcome the earliest. */
const mostKept = 600;

const { values, positionals } = parseArgs({
	options: { minutes: { type: 'string', default: '10' }, seed: { type: 'string', default: '1' } },
	allowPositionals: true,
});
const minutes = Number(values.minutes);
const firstSeed = Number(values.seed);
const unknown = positionals.find((name) => !parsers.some((parser) => parser.name === name));
if (unknown !== undefined || !(minutes > 0) || !Number.isInteger(firstSeed)) {
	process.stderr.write(
		`give parsers of ${parsers.map(({ name }) => name).join(', ')}, --minutes above 0, --seed a whole number\n`,
	);
	process.exit(2);
}

/** Tries one parser for its time; gives what broke it, made as small as it goes, or null. */
async function tried(parser: FuzzedParser): Promise<{ readonly input: Uint8Array; readonly why: string } | null> {
	const kept = [
		...parser.begins.map((begin) => (typeof begin === 'string' ? Buffer.from(begin) : begin)),
		...keptInputs(parser.name),
	];
	const outcomes = new Set<string>();
	const untilMs = Date.now() + minutes * 60_000;
	let count = 0;
	// A judge that the end of a batch left at its work is waited for: judges share what they write to.
	let judging: Promise<unknown> = Promise.resolve();
	for (let seed = firstSeed; Date.now() < untilMs; seed++) {
		const found: Uint8Array[] = [];
		const property = fc.asyncProperty(inputs([...kept], parser.words, parser.form), async (input) => {
			const judged = Promise.resolve(input).then((one) => parser.judge(one));
			judging = judged.catch(() => undefined);
			const outcome = await judged;
			if (outcomes.has(outcome)) return;
			outcomes.add(outcome);
			found.push(input);
		});
		const { failed, counterexample, errorInstance, numRuns } = await fc.check(property, {
			seed,
			numRuns: batch,
			interruptAfterTimeLimit: 60_000,
		});
		await judging;
		count += numRuns;
		if (failed && counterexample)
			return {
				input: counterexample[0],
				why: errorInstance instanceof Error ? (errorInstance.stack ?? errorInstance.message) : String(errorInstance),
			};
		for (const input of found) if (kept.length < mostKept) kept.push(input);
	}
	process.stdout.write(`${parser.name.padEnd(14)} ${count} inputs, ${outcomes.size} kinds of outcome, nothing broke\n`);
	return null;
}

for (const parser of parsers) {
	if (positionals.length > 0 && !positionals.includes(parser.name)) continue;
	const broken = await tried(parser);
	if (broken === null) continue;
	const folder = join(corpusFolder, parser.name);
	mkdirSync(folder, { recursive: true });
	const path = join(folder, createHash('sha256').update(broken.input).digest('hex').slice(0, 12));
	writeFileSync(path, broken.input);
	process.stdout.write(
		`${parser.name.padEnd(14)} BROKEN by ${path}: ${JSON.stringify(Buffer.from(broken.input).toString('latin1').slice(0, 200))}\n${broken.why}\n`,
	);
	process.exitCode = 1;
}
process.exit();
