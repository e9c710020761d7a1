import type * as z from 'zod/mini';

/** An answer, checked against its own description, so that server and page cannot drift apart. */
export function checked<Answer>(schema: z.ZodMiniType<Answer>, answer: NoInfer<Answer>): Answer {
	return schema.parse(answer);
}

/** What a request carries; nothing when it is not JSON. */
export async function bodyOf(request: Request): Promise<unknown> {
	try {
		return await request.json();
	} catch {
		return undefined;
	}
}
