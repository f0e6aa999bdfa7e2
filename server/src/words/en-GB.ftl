### What pupils read, in English. Another language is another file like this
### one, named by its tag: the build says what it lacks.
###
### Reading age about eleven: short sentences, plain words. The same thing has
### the same name everywhere: bench, sheet, row, box, lesson code, come-back number.

## The language itself

# Which way it is written: ltr or rtl.
direction = ltr
list-two = { $most } and { $last }
list-more = { $most }, { $next }
month = { $month ->
    [1] January
    [2] February
    [3] March
    [4] April
    [5] May
    [6] June
    [7] July
    [8] August
    [9] September
    [10] October
    [11] November
   *[12] December
 }
# $month is a word of the message before this one.
date-of = { $day } { $month } { $year }
when-today = at { $time }
when-other-day = on { $day } { $month } at { $time }

## Around every page

page-skip = Skip to the page
page-staff = Staff
page-sign-in = Staff sign in
page-privacy = What is kept about you
page-about = About Crestcount

## Coming in

join = Join your class
join-code = Lesson code
join-code-hint = Five letters. Your teacher has it.
join-button = Join
join-empty = Type the lesson code. Your teacher has it.
join-no-such-code = There is no class with this code. Check the five letters with your teacher.

bench = Bench { $label }
benches = Choose your bench
benches-all = All benches
benches-lead = { $practical }, class { $class }, { $date }.
benches-closed = Your teacher has closed this class set. You can read your sheet, but not change it.
benches-marked = Your sheets have been marked. Choose your bench to read your feedback.
benches-handed-in = Handed in. You may need its come-back number.
benches-begun = Begun. You may need its come-back number.
benches-free = Nobody is here yet.
benches-other-class = Not your class?
benches-other-code = Type another code
bench-no-such = There is no bench with this letter in your class.
bench-closed = Your teacher has closed this class set. There is nothing on this bench’s sheet.

number-title = Your come-back number
number-heading = Bench { $label }: your come-back number
number-write-down = Write it down now. It is shown only this once.
number-what-for = You need it to open this sheet at another computer, or next lesson.

come-back = Come back to bench { $label }
come-back-number = Come-back number
come-back-hint = Four digits. Your group wrote them down on the first day.
come-back-button = Open the sheet
come-back-lost = Lost it? Ask your teacher for a new number.
come-back-wrong = That is not this bench’s number. Check it, or ask your teacher for a new one.
come-back-four = The come-back number has four digits. Type all four.
come-back-too-many = That was too many tries. Wait a minute, or ask your teacher for a new number.

leave = Leave this bench
leave-hint = Sharing this computer? Save first, then leave.

## What is kept, and what these pages are

privacy-lead = Your group’s readings and working are kept. Your name is not.
privacy-kept = What we keep
privacy-kept-numbers = The numbers and the answers that your group types, each time you save or hand in, and the time of day.
privacy-kept-bench = Which bench you chose: a letter, such as A. You have no account here.
privacy-kept-number = A scrambled form of your come-back number. The number itself is not kept.
privacy-kept-notes = Your teacher’s notes on the sheet.
privacy-kept-count = How many pupils were there, how many were not, and on which day those caught up.
privacy-kept-initials = Initials, if your teacher writes them into the register. They stand on no sheet, and only teachers see them. They are wiped on { $date }.
privacy-kept-initials-latest = Initials, if your teacher writes them into the register. They stand on no sheet, and only teachers see them. They are wiped on { $date } at the latest.
privacy-not-kept = What we do not keep
privacy-not-kept-name = Your name, your e-mail address or your photograph. Please do not type names in the boxes.
privacy-not-kept-initials = Your name, your initials, your e-mail address or your photograph. Please do not type names in the boxes.
privacy-not-kept-else = What else you do on this computer. These pages load nothing from other places, and nobody else can follow you through them.
privacy-cookies = Cookies
privacy-cookies-one = Your browser keeps one small mark, a cookie, that says which benches it has opened. It works for 12 hours at most, and it goes when the browser is closed. Press <em>{ leave }</em> to end it sooner.
privacy-who = Who can see your sheet
privacy-who-sees = You, anybody who has your come-back number, and the science teachers of your school. Ask your teacher when it will be deleted.

about-lead = Crestcount is for the school practical on the speed of waves: ripples on water, and loops on a string.
about-what = Groups type their readings and working. The program works everything out again from the readings, and shows the teacher where a group’s own figures take a wrong turn.
about-teaching = For teaching practicals only
about-teaching-why = These live pages are for lessons. Do not use them where a practical is itself sat as an exam: there a teacher may not check results as they come.
about-marks = Marks are the department’s own. No awarding body asks for them or has approved them.
about-safety = Safety
about-safety-first = The cautions here repeat the usual ones and replace none. Your employer’s risk assessment, local rules and the technician’s word come first.

## When something goes wrong

problem-front = Go to the front page
problem-nothing-here = There is nothing here.
problem-no-page = Page not found
    .why = There is no page at this address. Check it, or start again.
problem-not-possible = Not possible
    .why = This page cannot be used in that way.
problem-not-allowed = Not allowed
    .why = This form came from another site, so nothing was changed. Open the page again and try once more.
problem-too-long = Too long
    .why = That was longer than a bench sheet can be. Nothing was stored.
problem-no-form = Not a form
    .why = This page takes only its own form.
problem-other-form = This page takes only its own form. Nothing was stored.
problem-not-confirmed = Not yet confirmed
    .why = The server took too long. Your entry is not yet confirmed: go back, and press the button again.
problem-not-understood = Not understood
    .why = The server could not understand this request.
problem-inside = Something went wrong
    .why = The server met a problem. It has been written in its log. Please try again.
problem-too-many-tries = Too many tries

## The practicals

# By a method's code: .part is over the first part of the sheet and .part-lead
# below that, .readings-lead over the table of readings.

method-ripple-tank = Ripples on water
    .part = 1 The enlargement
    .part-lead = The lamp makes a picture that is larger than the water. Find out how many times larger.
    .readings-lead = One row for each frequency. Measure over as many crests as you can. Leave rows empty if you do not need them.
method-string-loops = Loops on a string
    .part = 1 Your string
    .part-lead = Leave these boxes empty if your teacher did not ask for them.
    .readings-lead = One row for each frequency. Measure over as many loops as you can. Leave rows empty if you do not need them.

# A caution as it stands on the sheet, where pupils need to be told; .hand-out is
# what the hand-out says, for whoever sets the lesson up.

caution-flashing = Flashing light can make some people very ill. Tell your teacher before any lamp flashes if it might harm you: you can count slow waves under steady light.
    .hand-out = A flashing lamp can bring on a seizure in people with photosensitive epilepsy; 3 to 30 flashes a second is the usual range of concern. Ask before the lesson. Do not use the strobe with anyone sensitive: let them count slow waves under steady light.
caution-water = Keep plugs, leads and this computer dry. Wipe up spilt water at once.
    .hand-out = Keep mains leads and plugs away from the water. Wipe up spilt water at once.
caution-dark =
    .hand-out = The room is darkened: clear bags and stools from the floor first.
caution-eyes = Wear eye protection: a stretched string can snap.
    .hand-out = A stretched string can snap: wear eye protection.
caution-feet = Keep your feet clear of the hanging mass. Add no more mass than your teacher allows.
    .hand-out = The mass can fall: keep feet clear, and put something soft beneath it.
caution-vibrator =
    .hand-out = Hang no more mass than the maker of the vibrator allows.

# What one group needs, by a method's code.

needs-ripple-tank =
    .item-1 = ripple tank with legs, beaches and clean water 4 to 12 mm deep
    .item-2 = straight dipper with motor or vibrator, and signal generator or motor supply with a dial
    .item-3 = lamp (steady, and stroboscope if it is used)
    .item-4 = white screen or paper beneath the tank
    .item-5 = ruler, 30 cm or longer, and an object of known length to lay in the tank
    .item-6 = stopwatch, if crests are counted
needs-string-loops =
    .item-1 = vibrator and signal generator
    .item-2 = string, pulley on a clamp, and stand
    .item-3 = hanger and slotted masses of known value
    .item-4 = metre ruler
    .item-5 = balance that reads to 0.01 g, one for the class
    .item-6 = eye protection for everyone, and a soft landing for the masses

## The bench sheet

sheet = Bench { $label }: your sheet
sheet-lead = { $practical }, class { $class }, { $date }
sheet-yours = Your sheet
sheet-go = Go to your sheet
sheet-marked = Your sheet has been marked.
sheet-read-feedback = Read your feedback
sheet-may-change = You can still change it until your teacher closes the class set.
sheet-handed-in = Handed in { $when }. Kept.
sheet-saved = Saved { $when }. Not handed in yet.
sheet-saved-after = Saved { $when }. These changes are not handed in yet.
sheet-save = Save
sheet-save-hint = Type each figure as you wrote it down: 5.60 and 5.6 are not the same. Save as often as you like.
sheet-save-only = Save without handing in
sheet-hand-in = Hand in
sheet-look-again = Look again at our working
sheet-save-look-again = Save and look again at our working
sheet-cautions-first = What your teacher and the room’s own rules say comes first.
sheet-part-readings = 2 Your readings
sheet-part-working = 3 Your working
    .lead = Work these out for each row. Choose the unit of each column.
sheet-part-result = 4 Your result
sheet-part-words = 5 In your own words
    .lead = Leave these boxes empty if your teacher did not ask for them. Please do not write anybody’s name.
sheet-kit = What is written on your kit
    .short = Kit
    .long = Type only what is written on the kit: at most 40 characters.
sheet-shared = If these are not your own readings, where are they from?
    .hint = Leave it empty if you took them yourselves. Or write, for instance: group D, or the set on the board.
    .short = Where the readings are from
    .line = Readings from
    .long = Type only the group or set they come from: at most 40 characters.
sheet-row = Row
    .of = Row { $row }: { $what }
sheet-readings-table = Table of readings
sheet-working-table = Table of working
sheet-left-out = We left this row out as an anomaly
    .of = Row { $row }: we left this row out as an anomaly
    .line = Row { $row }: left out as an anomaly
    .yes = yes
sheet-repeat = Repeat
    .button = Measure again
    .of = Measure again: the frequency of row { $row }
    .ready = Row { $ready } is ready: the same frequency as row { $row }. It is not saved yet.
sheet-add-rows = Add two rows
    .added = Two rows were added. Nothing is saved yet.
    .full = There is no room for another row on this sheet.
sheet-counted = No dial? Count the crests that pass a point
    .lead = Call the first number as the watch starts, and the last as it stops.
    .table = Counted crests
sheet-in-unit = in { $unit }
    .column = { $heading } in { $unit }
sheet-unit = unit
    .of = Unit of { $heading }
    .of-column = Unit of the column { $heading }
sheet-choose = choose
sheet-asked = Kept, but is it right? { $question }
sheet-complaints = { $count ->
    [one] Nothing is saved yet: put this box right, then press Save
   *[other] Nothing is saved yet: put these { $count } boxes right, then press Save
 }
sheet-complaints-empty = Nothing to keep yet
sheet-complaint = { $name }. { $reason }
sheet-empty = Nothing is filled in yet. Type your readings first.
sheet-too-old = This page was too old to be kept. Look your figures over and press the button again.
sheet-words-long = This is { $length } characters long. Make it shorter: there is room for { $most }.
sheet-words-hidden = There is a sign in it that cannot be shown. Type this part again, without pasting it.
sheet-closed = Your teacher has closed this class set. You can read your sheet, but not change it.
sheet-nothing = Nothing was stored on this sheet.
sheet-stored = What is stored, as you typed it

typed-box = Box
typed-you = You typed

answer-method = How did you measure?
    .hint = Say what you did, in order, so that another group could do it again without asking you.
    .short = How you measured
    .theirs = how they measured
answer-conclusion = What did you find?
    .hint = Say what your results show. Use two of your own numbers.
    .short = What you found
    .theirs = their conclusion
answer-evaluation = What was good, and what was not?
    .hint = Which reading was hard to take? Would it come out too large or too small? What would make it more precise?
    .short = What was good and what was not
    .theirs = their evaluation

two-versions = Two versions
two-versions-heading = Bench { $label }: two versions
two-versions-lead = Since you opened this page, another version was stored. Nothing was written over: choose which one to keep.
two-versions-table = The two versions
two-versions-differ = Boxes in which the two differ
two-versions-stored = Stored { $when }
two-versions-yours = Yours, not kept yet
two-versions-empty = (empty)
two-versions-same = Boxes that are the same in both
    .caption = The same in both versions
    .both = Both say
two-versions-choose = If you keep the stored one, yours is let go: copy down first what you need from it. If you put yours in its place, the stored one stays in the history of the sheet, where your teacher can see it.
two-versions-keep = Keep the stored one
two-versions-replace = Put mine in its place

not-kept = Not kept
not-kept-heading = Bench { $label }: not kept
not-kept-typed = What you typed. Copy it down if you need it.
not-kept-closed = Your teacher has closed this class set, so this was not kept. What you stored before is safe.
    .next = See what is stored
not-kept-number = This was not kept, because this browser must give the come-back number first.
    .next = Type the come-back number

## Looking again

again = Bench { $label }: look again
again-one = One thing at a time. Talk it over in your group.
again-at = Look again at { $what }.
again-go-unit = Go to the unit
again-go-row = Go to row { $row }
again-go-box = Go to this box
again-go-working = Go to your working
again-more = If you change anything, save it and look again. There may be another thing after this one. If you think that your figure is right, ask your teacher.
again-not-begun = Nothing is stored on your sheet yet. Save it first, then look again.
again-no-working = There is no working on your sheet yet.
    .next = Type what you worked out, save it, and look again.
again-nothing = Nothing in your working needs another look.
    .readings = This page looks only at what you worked out from your readings. The readings themselves are for you to check.
again-off = Your teacher has not switched this on.

## Feedback

feedback = Your feedback
feedback-title = Bench { $label }: your feedback
feedback-not-yet = Bench { $label }: feedback
    .why = There is no feedback to read yet. Your teacher will tell you when there is.
feedback-none = There is no feedback for this bench.
feedback-of = Feedback for bench { $label }
feedback-head = Bench { $label }: { $marks } of { $most } marks
feedback-table = Readings and working of bench { $label }
feedback-left-out = { $row } (left out)
feedback-right = right
feedback-here = ← here
feedback-more-rows = { $count ->
    [one] And { $count } more row on your sheet.
   *[other] And { $count } more rows on your sheet.
 }
feedback-nothing-typed = Nothing was typed on the screen.
feedback-first = The first wrong turn: { $place }
feedback-sum = { $arithmetic }; you have <strong>{ $given }</strong>.
    .row = Row { $row }: { $arithmetic }; you have <strong>{ $given }</strong>.
feedback-found = Your teacher found a slip in your readings:
    .ask = { $found }. Ask what it was.
feedback-notes = From your teacher
feedback-note-about = { $about }:
feedback-marks = Your marks
feedback-mark = { $marks } of { $most }
feedback-not-marked = not marked yet
feedback-total = Together: { $marks } of { $most } marks.
    .own = These are your department’s own marks for this practical.
feedback-next = One thing to do next

## The boxes of a sheet
# The name stands in sentences, after *the* or *your*; .box is what the box or its
# column is called, .hint the line under it, .usual what helps where a figure is
# unusual.

field-scale-image = length of the object on the screen
    .box = Length of its picture on the screen
    .hint = Measure the picture of the same object, where you measure the waves.
    .usual = Does that fit on the screen?
field-scale-true = true length of the object
    .box = True length of the object
    .hint = Measure the object itself, not its picture.
    .usual = Does that fit in the tank?
field-depth-mm = depth of the water
    .box = Depth of the water
    .hint = Only if you measured it.
    .usual = Most tanks hold 4 to 12 mm of water.
field-temperature-c = temperature of the water
    .box = Temperature of the water
    .hint = Only if you measured it.
    .usual = Tap water in a lab is near 15 to 25 °C.
field-hanging-mass-g = mass hung on the string
    .box = Mass on the string, with its hanger
    .usual = Is that in grams, hanger included?
field-string-mass-g = mass of the string
    .box = Mass of the string
    .usual = Is that in grams?
field-string-length-m = length of the string that was weighed
    .box = Length of the string that you weighed
    .usual = Is that in metres?
field-dial = dial
    .box = Dial reading
field-dial-times = dial multiplier
    .box = Dial is set to
field-passes-first = first number called
    .box = First number you called
field-passes-last = last number called
    .box = Last number you called
field-seconds = time of the count
    .box = Time from first call to last
    .usual = Is that in seconds?
field-first-crest = number at the ruler’s zero
    .box = Number of the crest at the ruler’s zero
field-last-crest = number at the far end
    .box = Number of the crest at the far end
field-span = distance between the crests
    .box = Distance between these two crests
    .usual = Does that fit on the screen?
field-loops = loops seen
    .box = Loops you see
field-length = length measured
    .box = Length you measured
    .usual = Does that fit on the bench?
field-length-loops = loops in that length
    .box = Loops in that length
field-frequency = frequency
    .box = Frequency
field-wavelength = wavelength
    .box = Wavelength
field-reciprocal = 1 ÷ wavelength
    .box = 1 ÷ wavelength
field-speed = speed
    .box = Speed
field-magnification = enlargement
    .box = Enlargement: picture ÷ object
    .hint = No unit. Leave it empty if you measured in the water itself.
field-mean-speed = mean speed
    .box = Mean of your speeds
    .hint = Leave out rows that you ticked as anomalies.
field-uncertainty = uncertainty of the mean
    .box = Uncertainty of your mean
    .hint = How far your mean may be out, either way. Half the range: (largest speed − smallest speed) ÷ 2.
field-gradient = gradient
    .box = Gradient of your graph
    .hint = Frequency goes up the page, 1 ÷ wavelength goes along it.

## Slips and remarks, by code
#
# The name itself: a few words for a list. .said: what the group did, for staff.
# .ask: a question for the teacher to ask at the bench. .look: a question for the
# group before its sheet is marked, which asks for the thought and gives nothing
# away. .told: what the group did, on its feedback. .next: what to do next.

slip-counted-from-one = counted from one
    .said = The lines were counted, not the gaps between them: one too many.
    .ask = Can you point to wave number one? Is it a line or a gap?
    .look = Waves are the gaps between the crests. Hold up one hand: are there as many gaps as fingers?
    .told = You counted the crests. The waves are the gaps between them, so there is one fewer.
    .next = Next time call the first line nought. Then the last number is how many waves there are.
slip-span-not-divided = whole span taken for one wavelength
    .said = The whole distance was taken for one wavelength.
    .ask = Is this the length of one wave, or of all that you measured?
    .look = How many waves are there in the distance that you measured? How do you get the length of just one of them?
    .told = You took the whole distance that you measured for one wavelength.
    .next = Divide the distance by the number of waves in it. Work one row out again.
slip-scale-left-out = enlargement left out
    .said = The wavelength was not divided by the enlargement: it is the one on the screen, not the one on the water.
    .ask = If you lay a ruler in the water, does ten centimetres of it make ten centimetres of shadow?
    .look = You measured the picture, and the picture is larger than the water. How do you get from a length in the picture to the same length on the water?
    .told = You did not divide by the enlargement. This is the wavelength in the picture, not on the water.
    .next = Divide each wavelength on the screen by your enlargement. Work one row out again.
slip-scale-multiplied = multiplied by the enlargement
    .said = The wavelength was multiplied by the enlargement where it should have been divided by it.
    .ask = Which is longer, the wave on the water or its shadow?
    .look = The picture is larger than the water. Should a wave on the water come out longer or shorter than its picture?
    .told = You multiplied by the enlargement. The water is smaller than its picture, so divide.
    .next = The picture is larger than the water. Divide by the enlargement, and work one row out again.
slip-scale-upside-down = enlargement upside down
    .said = The enlargement was worked out upside down: true length ÷ image length.
    .ask = How many times larger is the picture than the real thing?
    .look = The enlargement says how many times larger the picture is than the object. Which of your two lengths is the larger one, and does your figure fit that?
    .told = Your enlargement is upside down. It is the length in the picture ÷ the true length.
    .next = Work the enlargement out again: length on the screen ÷ true length. It should be above one.
slip-crest-to-trough = half a wave taken for one
    .said = The wavelength is out by a factor of two: half a wave (crest to trough) and a whole one were mixed up.
    .ask = From one bright line, where does the pattern begin again?
    .look = A wave is over when everything begins again. From where to where do you have to measure to get one whole wave?
    .told = You mixed up half a wave and a whole one. A wave goes from one crest to the next.
    .next = One wave goes from bright to the next bright. Mark one whole wave on a sketch.
slip-loop-taken-as-wavelength = one loop taken for a wave
    .said = The length of one loop was taken for the wavelength: one wave is two loops.
    .ask = Can you trace one whole wave with your finger, up and down?
    .look = Look at the drawing of the loops. The string goes up in one loop while it goes down in the next: how much of a wave is one loop?
    .told = You took one loop for a whole wave. One wavelength is two loops.
    .next = One wave is two loops. Double the length of one loop, and work one row out again.
slip-nodes-counted-as-loops = nodes counted as loops
    .said = The length was divided by one more than the number of loops: the nodes were counted.
    .ask = Which did you count, the bulges or the still points?
    .look = Loops are the parts that shake, and nodes are the points that stay still. Which of them do you need here, and how many are there in your length?
    .told = You divided by the number of still points. There is one loop fewer than still points.
    .next = Count the loops that bulge, not the still points between them. Sketch your string with three loops.
slip-inner-nodes-counted = inner nodes counted
    .said = The length was divided by one fewer than the number of loops: the nodes between the ends were counted.
    .ask = Which did you count, the bulges or the still points between them?
    .look = A string with one loop has no still point between its ends. What do you have to count, then, and how many of them are in your length?
    .told = You divided by the number of still points between the ends. There is one loop more than that.
    .next = Count the loops that bulge, not the still points between them. Sketch your string with four loops.
slip-dial-multiplier-left-out = dial multiplier left out
    .said = The dial was used without its multiplier.
    .ask = Where is the pointer, and where is the range switch?
    .look = A dial has a pointer and a setting. Which two numbers do you need to get the frequency?
    .told = You read the dial, but left its setting out. Multiply the two.
    .next = Write the dial’s multiplier beside every reading, and multiply before you go on.
slip-count-not-divided = count given for the frequency
    .said = The number of waves counted was given for the frequency, without dividing by the time.
    .ask = How many of these waves passed in just one second?
    .look = Frequency says how many waves pass in each second. How many did you count, and how long did that take?
    .told = This is how many waves you counted. Divide by the time to get the frequency.
    .next = Frequency is how many waves pass in one second. Divide your count by the time.
slip-period-as-frequency = period given for the frequency
    .said = The time of one wave was given for the frequency.
    .ask = When the motor speeds up, should this number grow or shrink?
    .look = Frequency says how many waves pass in each second. How is that different from the time that each wave takes?
    .told = This is the time of one wave. The frequency is how many waves pass in one second.
    .next = You found the time of one wave. Frequency is one divided by that time.
slip-speed-divided = frequency divided by wavelength
    .said = The frequency was divided by the wavelength where the two should have been multiplied.
    .ask = Which units do you get here: Hz times m, or Hz over m?
    .look = Hertz means: so many in each second. What must you do with a frequency and a length to get metres in each second?
    .told = You divided the frequency by the wavelength. Multiply the two.
    .next = Speed is frequency × wavelength. Check the units: hertz times metres is metres per second.
slip-speed-inverted = wavelength divided by frequency
    .said = The wavelength was divided by the frequency where the two should have been multiplied.
    .ask = Longer waves at the same frequency: are they faster or slower?
    .look = So many waves pass in each second, and each of them is so long. How do you work out how far a wave goes in each second?
    .told = You divided the wavelength by the frequency. Multiply the two.
    .next = Speed is frequency × wavelength. Check the units: hertz times metres is metres per second.
slip-reciprocal-left-out = wavelength given for 1 ÷ wavelength
    .said = The wavelength itself was written where 1 ÷ wavelength is asked for.
    .ask = What does the heading of this column ask for?
    .look = This column asks how many waves fit into a length, not how long each wave is. Which key of your calculator turns the one into the other?
    .told = This is the wavelength itself. The column asks for 1 ÷ wavelength.
    .next = Fill the column 1 ÷ wavelength in again: divide one by each wavelength in metres.
slip-mean-not-divided = sum given for the mean
    .said = The speeds were added up but not divided by how many there are.
    .ask = Is your mean between your smallest speed and your largest?
    .look = A mean lies between your smallest speed and your largest. Does yours, and what comes after adding the speeds up?
    .told = You added the speeds up, but did not divide by how many there are.
    .next = Divide the sum of your speeds by how many there are. A mean lies between the smallest and the largest.
slip-mean-wrong-count = mean divided by another count
    .said = The sum of the speeds was divided by another number than how many there are.
    .ask = How many speeds did you add up, and what did you divide by?
    .look = A mean shares the sum out among the rows that are in it. Which rows are in yours, and how many are there?
    .told = You divided the sum of the speeds by a number that is not how many there are.
    .next = Count the speeds that you added up, and divide by that number.
slip-means-multiplied = means multiplied
    .said = The mean frequency was multiplied by the mean wavelength, where the mean of the speeds is asked for.
    .ask = Which figures did you add up for this mean?
    .look = Every row has a speed of its own. Which column do you add up to get their mean?
    .told = You multiplied the mean frequency by the mean wavelength. That is not the mean of your speeds.
    .next = Work out the speed of each row first. Then add the speeds up, and divide by how many there are.
slip-anomaly-averaged-in = marked anomaly averaged in
    .said = The mean holds the row that was marked as an anomaly.
    .ask = You marked a row as an anomaly: is it in your mean?
    .look = You ticked a row as an anomaly. What does that tick say about your mean?
    .told = You marked a row as an anomaly, but your mean still has it in.
    .next = Leave out of the mean what you marked as an anomaly. Then work the mean out again.
slip-gradient-upside-down = gradient upside down
    .said = The gradient is upside down: change along ÷ change up.
    .ask = Rise over run: what is the unit of your gradient?
    .look = A gradient says how far you go up for each step along. Which quantity goes up your graph, and which goes along it?
    .told = Your gradient is upside down. It is the change up ÷ the change along.
    .next = Gradient is how far the line goes up ÷ how far it goes along. Work it out again.
slip-gradient-from-one-point = gradient from one point
    .said = The gradient is one point's height ÷ its distance along, not the slope of the line.
    .ask = Which two places on your line did you use?
    .look = A gradient belongs to a line, not to a point. Which two places on your line, far apart, could you use?
    .told = You used one point for the gradient. It is the slope of the whole line.
    .next = Choose two points of your line that lie far apart. Gradient is the change up ÷ the change along.
slip-unit-power-of-ten = units mixed: out by a power of ten
    .said = The figure is out by a power of ten, as when mm, cm and m are mixed or a multiplier is missed.
    .ask = Say it with its unit: could that be right in this room?
    .look = Metres, centimetres and millimetres are easily mixed. Do the units of the figures that you used fit the unit of this one, and is its size sensible?
    .told = Your figure is 10, 100 or 1000 times too large or too small. Perhaps mm, cm and m were mixed.
    .next = Change every length to metres before you multiply. Then ask: could a wave go that fast?
slip-other-rows-figure = figure of another row
    .said = The figure was copied from another row, or worked out with a figure of another row.
    .ask = Can you put your finger on each number that you used here?
    .look = Follow this row with your finger from left to right. Does every number that you used stand in it?
    .told = You used a figure of another row here.
    .next = Lay a ruler under the row, and work it out again with the figures of that row alone.
slip-does-not-follow = does not follow
    .said = The figure does not follow from the group’s own earlier figures, and no wrong turn that is known here gives it.
    .ask = Can you show me how you got this figure, step by step?
    .look = Work this out once more, one step at a time, and write each step down. Which figures do you need, and what do you do with each of them?
    .told = This figure does not follow from the ones that you have before it.
    .next = One figure does not follow from those before it. Work it out again, and write each step down.
slip-too-few-figures = too few figures
    .said = One significant figure is too few for these readings.
    .ask = How finely can you read this ruler, and does your answer show it?
    .look = Your readings have more figures than this. How many can you give here?
    .told = This figure has fewer significant figures than your readings.
    .next = Give your answer to as many figures as your readings have: two or three.
slip-too-many-figures = too many figures
    .said = There are more significant figures here than the readings carry.
    .ask = Which of these figures are you really sure of?
    .look = No answer is more precise than the readings that it comes from. How many figures do your readings have?
    .told = This figure has more significant figures than your readings allow.
    .next = A calculator shows more figures than you measured. Round to as many as your readings have.
slip-unit-missing = unit missing
    .said = There is no unit: it was read in the heading’s unit, or in the one that makes it right.
    .ask = This many of what?
    .look = A number alone does not say how much. Which unit did you use?
    .told = This figure has no unit.
    .next = Write a unit with every speed.
slip-row-left-out-unsaid = a reading left out unsaid
    .said = It looks as if this reading was left out of the mean: say so in the table.
    .ask = Which rows are in your mean, and how can a reader tell?
    .look = Everybody should be able to see which rows your mean is made of. If you left a row out as an anomaly, did you tick it?
    .told = It looks as if you left a reading out of the mean, but your table does not say so.
    .next = Say in the table which reading you left out of the mean, and why it is an anomaly.

# Where two different wrong turns give the same figure.
told-either = Two different wrong turns give this figure. Look at the sum to see which was yours.
look-uncertainty = Find your largest speed and your smallest one. How far apart are they, and how far is each of them from halfway between?

## What to look at again

look-yours = your { $label }
look-reading = the { $label }
look-unit-of-yours = the unit of your { $label }
look-unit-of-reading = the unit of the { $label }
look-figures-of-yours = how many figures you gave for your { $label }
look-figures-of-reading = how many figures you gave for the { $label }
look-rows-in-mean = which rows are in your mean
look-in-row = { $what } in row { $row }
look-in-rows = { $what } in rows { $rows }
look-in-every-row = { $what } in every row

## What to do next, where no slip says it

next-go-on = Nothing to mend. Try this: does your speed change with frequency by more than your uncertainty? Say how you can tell.
next-method = Write your method again, so that a friend could follow it. Put every step in order, and name what you measured with.
next-conclusion = Write your conclusion again. Quote one of your own speeds, with its unit.
next-evaluation = Name one reading that was hard to take. Say which way it could be out, and what would make it more precise.
next-graph = Look at your graph and your table again. Each heading and each axis needs a quantity and a unit.

## Questions for the teacher to ask, whatever the reason

ask-stuck = What have you measured so far, and what comes next?
ask-not-begun = Is the apparatus working, and is your sheet open?

## Drawings

ruler = Counting crests from the ruler’s zero
    .drawn = A wave above a ruler. The crest at the ruler’s zero is called 0. The next crests are called 1, 2, 3 and 4. The crest called 4 is at the far end, so there are four wavelengths between the two.
    .caption = Put the ruler’s zero under a crest. Call that crest <strong>0</strong>, the next one 1, and count on to the far end.
    .end = 20 cm
loops = Three loops on a string
    .drawn = A string fixed at both ends shakes in three loops. The four still points between and beside the loops are marked N, for node. A line under the first two loops says: two loops are one wavelength.
    .loop = loop { $number }
    .node = N
    .wave = one wavelength
    .what = A loop is the part between two still points (nodes, N).
    .two = Two loops are one wavelength.

## The hand-out

hand-out = Hand-out
    .title = { $class }: { $practical }
    .date = { $date }.
    .cautions = Cautions
    .first = The employer’s risk assessment, local rules and the technician’s word come first. This list replaces none of them.
    .kit = Kit list for each group
hand-out-go = Go to
hand-out-code = and type the lesson code
hand-out-qr = QR code that leads to { $address }/c/{ $code }

## Where something is on a sheet

place-row = { $label }, row { $row }
place-every-row = { $label }, every row
place-a-row = row { $row }
place-all-rows = every row
place-row-label = row { $row }, { $label }

## What is wrong with a box, and what is asked about it
# $name is what the figure is called: see the boxes of a sheet.

wrong-not-here = There is no box for “{ $name }” here.
wrong-no-digits = There is no number here. Type digits, for example 5.6.
wrong-two-points = This has two decimal points. Keep one of them.
wrong-too-long = This is too long to be a reading. Type only the number.
wrong-out-of-range = This number is too large or too small to be a reading.
wrong-not-a-number = This is not a number. Type digits and a decimal point, for example 5.6.
wrong-unknown-unit = “{ $unit }” is not a unit that is used here.
wrong-has-no-unit = The { $name } has no unit. Type the number only.
wrong-unit = The { $name } cannot be in { $unit }. Use { $choices }.
wrong-negative = The { $name } cannot be negative. Take away the minus sign.
wrong-too-large = The { $name } cannot be as large as that.
wrong-not-whole = The { $name } is a count: type a whole number.
wrong-nought = The { $name } cannot be 0.
wrong-not-above = The { $name } must be larger than the { $other }.
odd-unusual = { $given } is unusual here. { $why }
odd-unit = Choose the unit: is it { $choices }?
odd-comma = Is that { $whole }.{ $after } or { $whole }{ $after }? It is read as the first.
odd-picture = That makes the picture { $times } times as large as the water. Is it?
odd-frequency = That is { $frequency } Hz with its multiplier. Check the dial and its range.
units-or = { $most } or { $next }

## A sum written out

sum-on-water = { $first }; on the water { $second }
sum-dial = the dial reads { $reading }
sum-waves = { $count } waves ÷ { $time }
sum-whole-range = { $half }; theirs is the whole range
sum-lines = lines that could be drawn through these points have gradients from { $low } to { $high }

## What things of a method are called in sentences for staff, by its code

nouns-ripple-tank =
    .apparatus = tank
    .one = wave
    .many = waves
    .against = against ripples of that frequency in such a tank
    .good-row = eight waves or more in the span
nouns-string-loops =
    .apparatus = string
    .one = loop
    .many = loops
    .against = against a string under that tension
    .good-row = a length over all the loops that were seen

## What stands before the class on a projector

wall = Who has handed in, { $class }
wall-heading = { $class }, { $date }
wall-count = { $count } of { $all } handed in
wall-not-begun = not begun
wall-writing = writing
wall-handed-in = handed in
wall-news = Bench { $label }: { $state }.
# More than three at once: how many, the page finds out.
wall-many = { $count } benches have changed.
wall-refreshed = Refreshed at <time>{ $time }</time>.
wall-refresh = Refresh
wall-teaching = For teaching practicals only.
wall-left = { $minutes ->
    [one] { $minutes } minute left, until { $time }
   *[other] { $minutes } minutes left, until { $time }
 }
wall-stopped = Measuring stopped at { $time }
