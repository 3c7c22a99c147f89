package program

// BlankWeighingSheet is a sheet to fill in at the bench: how it is filled in, then a weighing of an invented model that works as it is.
func BlankWeighingSheet() string { return blankWeighingSheet }

const blankWeighingSheet = `# WEIGHING SHEET. One row is one reading. The figures below are invented: write yours over them and delete the rows that you did not do.
# BEFORE: battery and fuel lines disconnected; propeller off. Two people lift. Fingers out from under wheels; blocks and lines.
# A model that falls breaks toes: pad the floor; nobody below it; tie a slack safety line to it when it hangs.
# Each line and hook must hold the whole model four times over (common practice; no source). Try it with a dead weight first.
# A SWING TEST MUST NOT: swing by more than 10 degrees to a side; touch anything; let a line go slack; wander into a second motion
# (stop and start again); be done in a draught; with loose ballast; with controls that flop; or with a person holding the model.
#
# Lengths are at model size. x aft of the model's datum; y right; z up from it. Angles are nose up. An empty cell does not apply.
# what: scale = level on scales; tilt = nose propped up on the same scales or hung from one hook (one row; no reading needed);
#       bifilar = hung from two equal upright lines; turning about the upright axis midway between them; compound = swinging under a horizontal axis.
# run:  rows of one run belong together. Write its lengths once; a further row of the run is a further reading or timing.
# point: what stands on the scale. x; y; z of a wheel are those of its axle; of a hook those of its bight. tare_g is what stands there beside the model.
# axis: of the model: yaw; roll; pitch; inclined (with angle_deg). For roll on two lines hang it nose down; for pitch hang it on its side.
# spacing_mm between the two lines; length_mm of a line; x_mm and z_mm of a compound's axis; or pivot_mm measured from the axis to the CG.
# periods: whole swings forth and back. load = hanger: the cradle swung alone in the same rig; hanger_cg_mm is how far below the axis it balances.
# The columns with _sd_ are one standard deviation of the reading; leave them empty for the usual ones.
what,run,date,point,x_mm,y_mm,z_mm,reading_g,tare_g,axis,angle_deg,load,spacing_mm,length_mm,pivot_mm,periods,time_s,amplitude_deg,hanger_g,hanger_cg_mm,position_sd_mm,reading_sd_g,angle_sd_deg,distance_sd_mm,time_sd_s,notes
scale,level,2026-03-12,nose,300,0,-230,3150,200,,,,,,,,,,,,0.7,3,,,,on three scales: datum line level
scale,level,,left,1090,-290,-210,6655,80,,,,,,,,,,,,0.7,3,,,,
scale,level,,right,1090,290,-210,6625,80,,,,,,,,,,,,0.7,3,,,,
scale,level,,nose,,,,3154,200,,,,,,,,,,,,,3,,,,taken off and put back
tilt,nose up,,nose,300,0,-230,1362,200,,20,,,,,,,,,,,3,0.2,,,the same wheels: nose on a block that is in the tare
tilt,nose up,,left,,,,7534,80,,,,,,,,,,,,,3,,,,
tilt,nose up,,right,,,,7534,80,,,,,,,,,,,,,3,,,,
bifilar,yaw,,,,,,,,yaw,,,800,2400,,20,63.4,6,,,,,,0.8,,level: two lines across the wing and CG midway
bifilar,yaw,,,,,,,,,,,,,,20,63.2,,,,,,,,,
bifilar,yaw,,,,,,,,,,,,,,20,63.3,,,,,,,,,
compound,roll,,,,,430,,,roll,,,,,,20,31.1,6,1200,350,0.7,,,1,,axis fore and aft: above the model
compound,roll,,,,,,,,,,,,,,20,30.9,,,,,,,,,
compound,roll,,,,,,,,,,,,,,20,31.0,,,,,,,,,
compound,roll,,,,,,,,,,hanger,,,,20,23.0,,,,,,,,,the cradle alone
compound,pitch,,,950,,420,,,pitch,,,,,,20,32.5,6,,,0.7,,,,,axis across: no cradle
compound,pitch,,,,,,,,,,,,,,20,32.3,,,,,,,,,
compound,pitch,,,,,,,,,,,,,,20,32.4,,,,,,,,,
bifilar,inclined,,,,,,,,inclined,40,,700,2400,,20,65.4,6,,,,,0.2,0.8,,nose up by 40 degrees: only for Ixz
bifilar,inclined,,,,,,,,,,,,,,20,65.2,,,,,,,,,
bifilar,inclined,,,,,,,,,,,,,,20,65.3,,,,,,,,,
`
