// Starts the field page: the engine first, then the screens over it.
import { render } from 'preact';
import { browser, createEngine } from './engine/index.ts';
import { App } from './screens/index.ts';

const place = document.getElementById('field');
if (place === null) throw new Error('index.html has no element "field".');
render(<App engine={await createEngine(browser())} />, place);
