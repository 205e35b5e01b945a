/** Put in by the build: the Electron version that package.json pins. */
declare const PINNED_ELECTRON: string;
