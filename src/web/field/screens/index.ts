// screens: what the field page shows. Every screen is a function of the engine's state; it saves through the engine
// and takes its words from text/ and its shapes from look/. Knows nothing of storage or of the network.
export { App } from './App.tsx';
