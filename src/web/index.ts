export { createApp, type AppParts } from './app.js';
export { choosePassphrase } from './choosePassphrase.js';
export { ROOM_PORT, startRoom, type OpenRoom, type RoomOptions } from './room.js';
export { seedDemo } from './seedDemo.js';
