import { describe, expect, test } from 'vitest';
import { missingPackages } from '../../../electron/setup/packages.mjs';

const dpkg = `Desired=Unknown/Install/Remove/Purge/Hold
||/ Name               Version        Architecture Description
+++-==================-==============-============-=================
ii  libgtk-3-0:amd64   3.24.38-2      amd64        GTK graphical user interface library
ii  qpdf               11.3.0-1       amd64        tools for transforming PDF files
rc  xvfb               2:21.1.7-3     amd64        removed, configuration left
iU  strace             6.1-0.1        amd64        unpacked, not configured
`;

describe('which Debian packages are missing', () => {
  test('an installed one is not, with or without its architecture', () => {
    expect(missingPackages([['libgtk-3-0'], ['qpdf']], dpkg)).toEqual([]);
  });

  test('a removed, half installed or unknown one is', () => {
    const wanted = [['xvfb'], ['strace'], ['socat']];
    expect(missingPackages(wanted, dpkg)).toEqual(wanted);
  });

  test('any name it has had will do', () => {
    const newer = 'ii  libasound2t64:amd64  1.2.11-1  amd64  shared library\n';
    expect(missingPackages([['libasound2', 'libasound2t64']], newer)).toEqual([]);
  });

  test('a longer name does not stand in for a shorter one', () => {
    expect(missingPackages([['libgtk-3']], dpkg)).toEqual([['libgtk-3']]);
  });

  test('without dpkg everything is missing', () => {
    expect(missingPackages([['qpdf']], '')).toEqual([['qpdf']]);
  });
});
