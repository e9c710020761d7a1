/** Writes the published schema of the set card and of an instrument description from those that the program checks with. */
import { writeFileSync } from 'node:fs';
import { instrumentJsonSchema } from '../src/record/instrument-description.ts';
import { setCardJsonSchema } from '../src/record/set-card.ts';

writeFileSync('docs/set-card.schema.json', `${JSON.stringify(setCardJsonSchema(), null, '\t')}\n`);
writeFileSync('docs/instrument.schema.json', `${JSON.stringify(instrumentJsonSchema(), null, '\t')}\n`);
