import { describe, expect, it } from 'vitest';
import { openFurnishedRoom, openTestRoom, REVIEW } from './room.js';

describe('the room answers only under its own name', () => {
  it.each(['localhost:4711', '127.0.0.1:4711', '[::1]:4711', 'LOCALHOST'])('answers to %s', async (host) => {
    const room = await openTestRoom();
    expect((await room.call('/', { headers: { host } })).status).toBe(200);
  });

  it.each(['barwise.example', 'localhost.example', '127.0.0.1.example:4711', '192.168.1.7:4711', '[::2]:4711', 'evil@localhost'])('refuses %s', async (host) => {
    const room = await openTestRoom();
    expect((await room.call('/', { headers: { host } })).status).toBe(421);
  });
});

describe('headers', () => {
  it('forbid everything from elsewhere, inline code and framing', async () => {
    const room = await openTestRoom();
    const { headers } = await room.call('/');
    const policy = String(headers['content-security-policy']).split(';');
    expect([...policy].sort()).toEqual([
      "base-uri 'none'", "default-src 'self'", "form-action 'self'", "frame-ancestors 'none'", "img-src 'self' data:", "object-src 'none'", "script-src 'self'", "style-src 'self'",
    ]);
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(headers['x-powered-by']).toBeUndefined();
    expect(headers['cache-control']).toBe('no-store');
  });

  it('are kept by the pages: no inline script, style or handler anywhere', async () => {
    const room = await openFurnishedRoom();
    for (const path of ['/', REVIEW, '/pupils/mei-castellow', '/pieces/rowing-home', '/nowhere']) {
      const { body } = await room.call(path);
      expect(body).not.toMatch(/<script(?![^>]*\ssrc=)/);
      expect(body).not.toMatch(/<style|\sstyle=|\son\w+=/);
    }
  });
});

describe('a form from another site', () => {
  const form = { key: crypto.randomUUID(), from: '6', text: 'planted' };

  it.each([
    { origin: 'http://evil.example' },
    { origin: 'null' },
    { origin: 'https://127.0.0.1' },
    { 'sec-fetch-site': 'cross-site' },
    { 'sec-fetch-site': 'same-site' },
  ])('is refused: %j', async (headers) => {
    const room = await openFurnishedRoom();
    expect((await room.post(`${REVIEW}/comments`, form, headers)).status).toBe(403);
    expect(room.store.comments(1)).toEqual([]);
  });

  it('is told apart from the room’s own', async () => {
    const room = await openFurnishedRoom();
    const own = { host: 'localhost:4711', 'origin': 'http://localhost:4711', 'sec-fetch-site': 'same-origin' };
    expect((await room.post(`${REVIEW}/comments`, form, own)).status).toBe(303);
    expect(room.store.comments(1)).toHaveLength(1);
  });

  it('may still be followed by a link', async () => {
    const room = await openFurnishedRoom();
    expect((await room.call(REVIEW, { headers: { 'sec-fetch-site': 'cross-site' } })).status).toBe(200);
  });
});
