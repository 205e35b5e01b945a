// The window is built to files and served over app://, in development too: a development server would need inline
// scripts, which the content security policy refuses.
import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

export default defineConfig({
  root: fileURLToPath(new URL('./renderer', import.meta.url)),
  base: './',
  plugins: [react()],
  build: {
    outDir: 'build',
    emptyOutDir: true,
    // The oldest runtime the window must load in: the stand-in's Chromium 130.
    target: 'chrome130',
    // Inlined assets are data: addresses, which the policy refuses.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 2_000,
  },
});
