import { describe, expect, it } from 'vitest';
import { dataFolder } from '../../src/store/index.js';

const LINUX = { env: {}, platform: 'linux', home: '/home/t' };

describe('the data folder', () => {
  it('is the option, else the variable, else the place of the system', () => {
    const env = { BARWISE_DATA: '/var/room' };
    expect(dataFolder({ ...LINUX, env, option: '/tmp/room' })).toBe('/tmp/room');
    expect(dataFolder({ ...LINUX, env })).toBe('/var/room');
    expect(dataFolder({ ...LINUX, env, option: '' })).toBe('/var/room');
    // XDG Base Directory Specification: $XDG_DATA_HOME, by default ~/.local/share
    expect(dataFolder(LINUX)).toBe('/home/t/.local/share/barwise');
    expect(dataFolder({ ...LINUX, env: { XDG_DATA_HOME: '/x' } })).toBe('/x/barwise');
    expect(dataFolder({ ...LINUX, platform: 'darwin' })).toBe('/home/t/Library/Application Support/Barwise');
  });
});
