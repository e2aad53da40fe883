// What holds the two sides of the chip joint: stacks of material from one common anchor to either end face.

export const MOUNT_AXES = ['x', 'y', 'z'] as const
export type MountAxis = (typeof MOUNT_AXES)[number]

export const MOUNT_SIDES = ['fibreSide', 'chipSide'] as const
export type MountSide = (typeof MOUNT_SIDES)[number]
