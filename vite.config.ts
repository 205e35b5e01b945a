// The window is built to files and served over app://, in development too: a development server would need inline
// scripts, which the content security policy refuses.
import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';

/**
 * One library of ours asks by `eval` whether generators exist, which the policy refuses. The answer is yes in every
 * runtime we load in, and a service that may ask gets the same one, so that both compute alike.
 */
const generatorsExist: Plugin = {
  name: 'generators-exist',
  enforce: 'pre',
  load(id) {
    return /@stdlib[\\/]assert-has-generator-support[\\/]lib[\\/]index\.js$/.test(id)
      ? 'module.exports = () => true;'
      : null;
  },
};

export default defineConfig({
  root: fileURLToPath(new URL('./renderer', import.meta.url)),
  base: './',
  plugins: [generatorsExist, react()],
  // A worker is built by itself, without the window's plugins.
  worker: { format: 'es', plugins: () => [generatorsExist] },
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
