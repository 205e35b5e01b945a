/** The service process starts here. */
import { startService } from '../handlers/index.ts';
import { serve } from './serve.ts';

await serve(startService);
