/** A WebAssembly file by its address in the built window. */
declare module '*.wasm?url' {
  const address: string;
  export default address;
}
