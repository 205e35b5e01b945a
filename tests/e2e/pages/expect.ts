// The same patience in the test runner and in a fault program that drives the window without one.
import { expect as playwrightExpect } from '@playwright/test';

export const expect = playwrightExpect.configure({ timeout: 20_000 });
