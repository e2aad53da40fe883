// What marks a project file.

export const PROJECT_FORMAT = 'modeseam-project'
export const PROJECT_VERSION = 2
