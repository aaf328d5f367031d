// The contract of the port, on the store and on the plain log in memory that later tests hold the store against.
import { createLogbook } from '../../src/log/store/index.ts';
import { emptyPlace } from './made-up.ts';
import { memoryLog } from './memory-log.ts';
import { portContract } from './port-contract.ts';

portContract('SQLite', () => createLogbook(emptyPlace()));
portContract('memory', async () => memoryLog());
