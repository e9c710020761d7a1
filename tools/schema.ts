/** Writes the published schema of the set card from the one that the program checks with. */
import { writeFileSync } from 'node:fs';
import { setCardJsonSchema } from '../src/record/set-card.ts';

writeFileSync('docs/set-card.schema.json', `${JSON.stringify(setCardJsonSchema(), null, '\t')}\n`);
