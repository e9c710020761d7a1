import { defineConfig } from 'vitest/config';

export default defineConfig({
	test: {
		include: ['src/**/*.test.ts', 'test/**/*.test.ts'],
		testTimeout: 60_000,
		hookTimeout: 60_000,
		// What a page comes to is waited for, longer than the usual second: a busy machine may be slow.
		expect: { poll: { timeout: 10_000 } },
		reporters: ['default', './tools/count-reporter.mjs'],
	},
});
