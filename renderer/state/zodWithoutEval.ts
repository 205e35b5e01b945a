/** Set before any schema is made: zod then compiles nothing, which the content security policy would refuse. */
import { config } from 'zod';

config({ jitless: true });
