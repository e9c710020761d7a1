/** Writes everything in the documentation that the program makes: reference, schemas, manual page, drawings, output of commands. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { documentation, documentationFaults } from './documentation/documentation.ts';

for (const [path, text] of await documentation()) {
	mkdirSync(dirname(path), { recursive: true });
	writeFileSync(path, text);
}
const faults = await documentationFaults();
for (const fault of faults) process.stderr.write(`${fault}\n`);
if (faults.length > 0) process.exitCode = 1;
