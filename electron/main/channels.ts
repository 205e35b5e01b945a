/** The only two channels between window and main process. */
export const callChannel = 'datumline:call';
export const noticeChannel = 'datumline:notice';
